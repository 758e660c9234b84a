/**
 * What a search and a count need of one joint, drawn out of the entries of its chain and of nothing else: no reading is unpacked, and
 * the verdict is the one that was recorded. A card can be thrown away at any time and made again.
 */

import type { Severity, Verdict } from '../judgement/assessment.ts';
import type { Conclusion } from '../judgement/conclusions.ts';
import { effectiveAt } from '../judgement/effect.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import { correctedActs } from '../judgement/pass-corrections.ts';
import { sourceAfter } from '../judgement/source.ts';
import { verdictFrom } from '../judgement/verdict-from.ts';
import { type CommittedEntry, inputOf } from '../ledger/item.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SignKind } from '../suspicion/sign.ts';
import type { Input, Source } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { recordedVerdict, standingFindings } from './as-recorded.ts';
import { type CardWords, cardWords } from './card-words.ts';
import { holdsLost } from './holds-lost.ts';
import { type CardPerson, peopleOf } from './people-of.ts';

export interface CardFinding {
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly probe?: string;
  readonly pass?: string;
  readonly instrument?: string;
  readonly board?: string;
  readonly sign?: SignKind;
  readonly decision?: 'accept' | 'repair' | 'reject';
}

export interface CardPass {
  readonly pass: string;
  readonly welder: string;
  readonly startedAt: Instant;
}

/** Of a probe what its faults are counted under. */
export interface CardProbe {
  readonly id: string;
  readonly board: string;
  readonly channel: number;
  readonly wire?: string;
}

export interface Card {
  readonly chain: string;
  readonly title: string;
  readonly open: boolean;
  readonly openedAt: Instant;
  readonly closedAt?: Instant;
  /** Of the newest entry. */
  readonly lastAt: Instant;
  readonly source: Source;
  /** As recorded when the joint was closed; of an open one what stands so far. */
  readonly verdict: Verdict;
  readonly procedure?: { readonly id: string; readonly revision: string };
  readonly grades: readonly string[];
  readonly heats: readonly string[];
  readonly repairOf?: string;
  readonly hasInterpassMaximum: boolean;
  readonly firstHeatAt?: Instant;
  readonly firstArcAt?: Instant;
  readonly holdsLost: number;
  /** Declared by a person. */
  readonly breaks: number;
  readonly passes: readonly CardPass[];
  readonly probes: readonly CardProbe[];
  readonly findings: readonly CardFinding[];
  readonly people: readonly CardPerson[];
  /** Everything that is looked through, as it was written. */
  readonly words: CardWords;
  /** Why no more could be drawn out: an entry that a newer program wrote. */
  readonly notRead?: string;
}

/** Undefined for a chain that does not begin with the opening of a joint. */
export function cardOf(chain: string, entries: Iterable<CommittedEntry>): Card | undefined {
  const { inputs, conclusions, lastAt, notRead } = parted(entries);
  const [first] = inputs;
  if (first?.type !== 'station' || first.event.kind !== 'opened') return undefined;
  let joint = first.event.joint;
  let { source } = first.event;
  let closedAt: Instant | undefined;
  let breaks = 0;
  for (const input of inputs) {
    source = sourceAfter(source, input);
    if (input.type !== 'act') continue;
    const { act } = input;
    if (act.kind === 'revise') joint = act.joint;
    if (act.kind === 'break' && act.state === 'begun') breaks += 1;
    if (act.kind === 'close') closedAt = input.at;
  }
  const passes = passesOf(inputs);
  const findings = findingsOf(conclusions);
  const heated = firstOf(inputs.flatMap((input) => (isHeatOn(input) ? [effectiveAt(input)] : [])));
  const struck = firstOf(passes.map(({ startedAt }) => startedAt));
  const people = peopleOf(first.event.openedBy, inputs, passes);
  const { procedure, repairOf } = joint;
  return {
    chain,
    title: joint.title,
    open: closedAt === undefined,
    openedAt: first.at,
    ...(closedAt === undefined ? {} : { closedAt }),
    lastAt,
    source,
    verdict: recordedVerdict(conclusions) ?? verdictFrom(findings, passes.length > 0),
    ...(procedure === undefined ? {} : { procedure: { id: procedure.id, revision: procedure.revision } }),
    grades: distinct(joint.parts.map(({ grade }) => grade)),
    heats: distinct(joint.parts.flatMap(({ analyses }) => analyses.map(({ heat }) => heat))),
    ...(repairOf === undefined ? {} : { repairOf: repairOf.joint }),
    hasInterpassMaximum: procedure?.interpassMaximumCelsius !== undefined,
    ...(heated === undefined ? {} : { firstHeatAt: heated }),
    ...(struck === undefined ? {} : { firstArcAt: struck }),
    holdsLost: holdsLost(conclusions),
    breaks,
    passes,
    probes: probesOf(joint),
    findings,
    people,
    words: cardWords(chain, joint, inputs, people),
    ...(notRead === undefined ? {} : { notRead }),
  };
}

interface Parted {
  readonly inputs: readonly Input[];
  readonly conclusions: readonly Conclusion[];
  readonly lastAt: Instant;
  readonly notRead?: string;
}

/** Up to the first entry that this program does not know; what stands before it can still be looked for. */
function parted(entries: Iterable<CommittedEntry>): Parted {
  const inputs: Input[] = [];
  const conclusions: Conclusion[] = [];
  let lastAt = 0 as Instant;
  for (const entry of entries) {
    try {
      const input = inputOf(entry);
      if (input === undefined) conclusions.push(entry.body as Conclusion);
      else inputs.push(input);
    } catch (cause) {
      return { inputs, conclusions, lastAt, notRead: cause instanceof Error ? cause.message : String(cause) };
    }
    lastAt = entry.at;
  }
  return { inputs, conclusions, lastAt };
}

/** As they stand after every correction, without those that were struck. */
function passesOf(inputs: readonly Input[]): CardPass[] {
  const corrected = correctedActs(inputs);
  const known = new Set<string>();
  return inputs
    .flatMap((input, index): CardPass[] => {
      const right = corrected.has(index) ? corrected.get(index) : input;
      if (right?.type !== 'act' || right.act.kind !== 'pass start') return [];
      if (right.corrected?.at(-1)?.struck === true || known.has(right.act.pass)) return [];
      known.add(right.act.pass);
      const { pass, welder } = right.act;
      return [{ pass, welder, startedAt: effectiveAt(right) }];
    })
    .sort((a, b) => a.startedAt - b.startedAt);
}

function findingsOf(conclusions: readonly Conclusion[]): CardFinding[] {
  return standingFindings(conclusions).map(
    ({ kind, severity, probe, pass, instrument, board, sign, disposition }): CardFinding => ({
      ...{ kind, severity },
      ...(probe === undefined ? {} : { probe }),
      ...(pass === undefined ? {} : { pass }),
      ...(instrument === undefined ? {} : { instrument }),
      ...(board === undefined ? {} : { board }),
      ...(sign === undefined ? {} : { sign }),
      ...(disposition === undefined ? {} : { decision: disposition.decision }),
    }),
  );
}

const isHeatOn = (input: Input): boolean =>
  input.type === 'act' && input.act.kind === 'heat' && input.act.state === 'on';

const probesOf = ({ probes }: Joint): CardProbe[] =>
  probes.map(({ id, board, channel, wire }) => ({ id, board, channel, ...(wire === undefined ? {} : { wire }) }));

const firstOf = (instants: readonly Instant[]): Instant | undefined =>
  instants.length === 0 ? undefined : (Math.min(...instants) as Instant);

const distinct = (names: readonly (string | undefined)[]): string[] => [
  ...new Set(names.filter((name) => name !== undefined && name !== '') as string[]),
];
