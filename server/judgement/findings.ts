/** Opening and closing findings in the state. A finding is told once while it lasts. */
import type { Instant } from '../measure/quantity.ts';
import type { Seen, SignKind, Sureness } from '../suspicion/sign.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { AmbientOutcome } from './ambient/touch.ts';
import type { Finding } from './assessment.ts';
import type { FindingKind } from './finding-kind.ts';
import { severities } from './rules.ts';
import type { Mutable, State } from './state.ts';

export interface FindingDetail {
  readonly probe?: string;
  readonly pass?: string;
  readonly part?: string;
  readonly instrument?: string;
  readonly board?: string;
  readonly who?: string;
  readonly act?: string;
  readonly item?: string;
  readonly value?: number;
  readonly limit?: number;
  readonly bound?: Bound;
  readonly sign?: SignKind;
  readonly sure?: Sureness;
  readonly seen?: Seen;
  readonly against?: string;
  readonly outcome?: AmbientOutcome;
}

export const findingKey = (kind: FindingKind, from: Instant, detail: FindingDetail): string =>
  [
    kind,
    detail.probe ?? detail.part ?? detail.instrument ?? detail.board ?? detail.act ?? detail.item ?? '',
    detail.pass ?? detail.sign ?? '',
    from,
  ].join('/');

/** Adds the finding unless it stands already; returns its key. */
export function open(state: State, kind: FindingKind, from: Instant, detail: FindingDetail = {}): string {
  const key = findingKey(kind, from, detail);
  if (!state.findings.some((finding) => finding.key === key)) {
    state.findings.push({
      key,
      kind,
      severity: severities[kind],
      from,
      knownAt: state.now,
      ...detail,
    } as Mutable<Finding>);
  }
  return key;
}

export function close(state: State, key: string, to: Instant): void {
  const finding = state.findings.find((each) => each.key === key);
  if (finding !== undefined) finding.to = to;
}

/** A finding about one instant: it holds from then to then. */
export function note(state: State, kind: FindingKind, at: Instant, detail: FindingDetail = {}): void {
  close(state, open(state, kind, at, detail), at);
}

export function remove(state: State, keep: (finding: Finding) => boolean): void {
  state.findings = state.findings.filter(keep);
}
