/**
 * Deviations: findings that need an answer, and what a named person decided on each. A decision changes no measurement and
 * no verdict; it stands beside the finding. It holds for the finding as its writer saw it: judged anew to another
 * number, the deviation is open again. A later decision takes the place of an earlier one; both stay in the record.
 */
import type { Instant } from '../../measure/quantity.ts';
import type { Act } from '../../weld/entry.ts';
import type { Finding, Severity } from '../assessment.ts';
import type { State } from '../state.ts';

export interface Disposition {
  readonly decision: (Act & { kind: 'disposition' })['decision'];
  readonly by: string;
  readonly role?: string;
  readonly reason: string;
  readonly at: Instant;
}

/** As the judge keeps it: of which finding, with the number that it had. */
export type KeptDisposition = Disposition & { readonly finding: string; readonly value?: number };

export interface Deviations {
  readonly open: readonly Finding[];
  readonly accepted: readonly Finding[];
  readonly repair: readonly Finding[];
  readonly rejected: readonly Finding[];
}

/** How many there are of each. */
export type DeviationCounts = { readonly [state in keyof Deviations]: number };

/** What is asked of a finding to count it. */
export interface Counted {
  readonly severity: Severity;
  readonly disposition?: Pick<Disposition, 'decision'>;
}

export const deviationCounts = (findings: readonly Counted[]): DeviationCounts => {
  const asked = findings.filter(needsAnswer);
  const count = (decision?: Disposition['decision']): number =>
    asked.filter(({ disposition }) => disposition?.decision === decision).length;
  return { open: count(), accepted: count('accept'), repair: count('repair'), rejected: count('reject') };
};

/** Everything that keeps a joint from complying, by what was decided. */
export function deviationsOf(findings: readonly Finding[]): Deviations {
  const all = findings.filter(needsAnswer);
  const decided = (decision: Disposition['decision'] | undefined) =>
    all.filter(({ disposition }) => disposition?.decision === decision);
  return {
    open: decided(undefined),
    accepted: decided('accept'),
    repair: decided('repair'),
    rejected: decided('reject'),
  };
}

export const needsAnswer = ({ severity }: Pick<Finding, 'severity'>): boolean => severity !== 'remark';

/**
 * Nothing happens where no such finding stands, where it has another number than the writer saw, or where it still lasts: it may
 * grow. Of a log all was there when it was decided on; what lasts at its end grows no more.
 */
export function dispose(state: State, act: Act & { kind: 'disposition' }, by: string, role: string | undefined): void {
  const { finding: key, decision, reason, value } = act;
  const finding = state.findings.find((each) => each.key === key);
  if (finding === undefined || !needsAnswer(finding) || finding.value !== value) return;
  if (finding.to === undefined && state.source.kind !== 'imported') return;
  const seen = value === undefined ? {} : { value };
  const decided = { decision, by, ...(role === undefined ? {} : { role }), reason, at: state.now };
  state.dispositions = state.dispositions.filter((each) => each.finding !== key);
  state.dispositions.push({ finding: key, ...seen, ...decided });
}

/** The finding with what was decided on it. */
export function withDisposition({ dispositions }: State, finding: Finding): Finding {
  const kept = dispositions.find((each) => each.finding === finding.key);
  if (kept === undefined || kept.value !== finding.value) return { ...finding };
  const { finding: _key, value: _value, ...disposition } = kept;
  return { ...finding, disposition };
}
