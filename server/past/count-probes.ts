/** Faults of probes under what goes from joint to joint: the channel of the board, and the wire lot where the register names one. */
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Card, CardFinding } from './card.ts';

const probeFaults: ReadonlySet<FindingKind> = new Set<FindingKind>([
  'silent',
  'intermittent',
  'running away',
  'out of range',
  'open circuit',
  'short circuit',
  'cold junction out of range',
  'rises faster than steel',
  'probe suspect',
  'twin reading apart',
  'ambient check failed',
  'verification failed',
]);

export interface ProbeCount {
  readonly what: 'channel' | 'wire';
  readonly name: string;
  /** Joints in which it was used, and those of them with a fault. */
  readonly joints: number;
  readonly faulty: number;
  readonly times: number;
  readonly kinds: readonly FindingKind[];
}

interface Counting {
  readonly what: ProbeCount['what'];
  readonly name: string;
  readonly joints: Set<string>;
  readonly faulty: Set<string>;
  times: number;
  readonly kinds: Set<FindingKind>;
}

/** Only what had a fault; most joints with one first. */
export function countProbes(cards: readonly Card[]): ProbeCount[] {
  const counts = new Map<string, Counting>();
  for (const { chain, probes, findings } of cards) {
    const faults = findings.filter(({ kind }) => probeFaults.has(kind));
    for (const probe of probes) {
      const own = faults.filter(
        (each) => each.probe === probe.id || (each.instrument !== undefined && each.instrument === probe.wire),
      );
      add(counts, 'channel', `${probe.board}, channel ${probe.channel}`, chain, own);
      if (probe.wire !== undefined) add(counts, 'wire', probe.wire, chain, own);
    }
  }
  return [...counts.values()]
    .filter(({ times }) => times > 0)
    .map(({ joints, faulty, kinds, ...count }) => ({
      ...count,
      joints: joints.size,
      faulty: faulty.size,
      kinds: [...kinds].sort(),
    }))
    .sort((a, b) => b.faulty - a.faulty || b.times - a.times || a.name.localeCompare(b.name, 'en', { numeric: true }));
}

function add(
  counts: Map<string, Counting>,
  what: ProbeCount['what'],
  name: string,
  chain: string,
  faults: readonly CardFinding[],
): void {
  const key = `${what}/${name}`;
  const count = counts.get(key) ?? { what, name, joints: new Set(), faulty: new Set(), times: 0, kinds: new Set() };
  count.joints.add(chain);
  if (faults.length > 0) count.faulty.add(chain);
  count.times += faults.length;
  for (const { kind } of faults) count.kinds.add(kind);
  counts.set(key, count);
}
