/** The detection table: every case in every stage over seeds, and runs in which nothing is wrong. */
import type { Mishap } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import type { Signals } from '../../../firmware-protocol/emulator/signal.ts';
import type { SignKind } from '../../../server/suspicion/sign.ts';
import { copySuspicion, type Suspicion } from '../../../server/suspicion/suspicion.ts';
import type { Case, Severity } from './cases.ts';
import { faultAt, type Stage, times } from './thermal-run.ts';
import { watchRun } from './watched-run.ts';

export interface Row {
  readonly case: Case;
  readonly severity: Severity;
  readonly stage: Stage;
  readonly within: number;
  readonly runs: number;
  readonly detected: number;
  /** Seconds from the fault, or from when heat came on, to the sign: the middle of those detected. */
  readonly middleSeconds: number | undefined;
  /** Other names that were told of the faulty probe first. */
  readonly otherNames: ReadonlyMap<SignKind, number>;
  /** Runs in which a sound probe was named. */
  readonly falselyNamed: number;
  readonly falseNames: ReadonlySet<string>;
  readonly blind: string | undefined;
}

export const stages = ['heating', 'soak', 'welding'] as const satisfies readonly Stage[];

/** The channel that it happens to: A1, which has a twin. */
const channel = 1;
const probe = 'A1';

export interface Beginnings {
  readonly [stage: string]: Suspicion;
}

/** What was watched up to each stage's fault, by one seed. */
export function beginningsOf(run: readonly Signals[], seed: number): Beginnings {
  const made: Record<string, Suspicion> = {};
  let from: Suspicion | undefined;
  let reached = 0;
  for (const stage of stages) {
    const part = run.filter(({ seconds }) => seconds >= reached && seconds < faultAt[stage]);
    const { suspicion } = watchRun(part, { seed, ...(from === undefined ? {} : { from }) });
    made[stage] = copySuspicion(suspicion);
    from = suspicion;
    reached = faultAt[stage];
  }
  return made;
}

export function rowOf(
  run: readonly Signals[],
  seeds: readonly number[],
  beginnings: ReadonlyMap<number, Beginnings>,
  one: { readonly case: Case; readonly severity: Severity; readonly stage: Stage },
): Row {
  const { case: fault, severity, stage } = one;
  const isSetUp = fault.from === 'set-up';
  const start = isSetUp && stage === 'heating' ? 0 : faultAt[stage];
  // What is there from the beginning shows itself from the heat on, not before.
  const counted = isSetUp && stage === 'heating' ? times.heatOn : start;
  const within = fault.withinStage?.[stage] ?? fault.within;
  const part = run.filter(({ seconds }) => seconds >= start && seconds <= counted + within);
  const mishap: Mishap = { kind: fault.mishap, channel, fromSeconds: start, ...severity.mishap };
  const isWholeBoard = mishap.channel === 'all';
  const told: number[] = [];
  const otherNames = new Map<SignKind, number>();
  let falselyNamed = 0;
  const falseNames = new Set<string>();
  for (const seed of seeds) {
    const from = isSetUp ? undefined : beginnings.get(seed)![stage]!;
    const { signs } = watchRun(part, { seed, mishaps: [mishap], ...(from === undefined ? {} : { from }) });
    const named = signs.find(
      (sign) => fault.names.includes(sign.kind) && (isWholeBoard ? sign.board !== undefined : sign.probe === probe),
    );
    if (named !== undefined) told.push(named.toldAt - counted);
    for (const { kind } of signs.filter((sign) => sign.probe === probe && !fault.names.includes(sign.kind)))
      otherNames.set(kind, (otherNames.get(kind) ?? 0) + 1);
    const sound = signs.filter(
      (sign) => sign.probe !== probe && !isWholeBoard && !(fault.kind === 'swapped' && sign.kind === 'swapped'),
    );
    if (sound.length > 0) falselyNamed += 1;
    for (const sign of sound) falseNames.add(`${sign.kind} of ${sign.probe ?? sign.board}`);
  }
  told.sort((a, b) => a - b);
  return {
    ...one,
    within,
    runs: seeds.length,
    detected: told.length,
    middleSeconds: told[told.length >> 1],
    otherNames,
    falselyNamed,
    falseNames,
    blind: severity.blind?.[stage] ?? fault.blind?.[stage],
  };
}

/** Everything at once. */
export function detectionTable(run: readonly Signals[], seeds: readonly number[], all: readonly Case[]): Row[] {
  const beginnings = new Map(seeds.map((seed) => [seed, beginningsOf(run, seed)]));
  return all.flatMap((fault) =>
    fault.severities.flatMap((severity) =>
      stages.map((stage) => rowOf(run, seeds, beginnings, { case: fault, severity, stage })),
    ),
  );
}
