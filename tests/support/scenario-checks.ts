/** What a scenario says of checks and points: its header lines and its acts. */
import type { Act } from '../../server/weld/entry.ts';

/** "check: dry blocks", "check: fit-up warns inspector"; "point: H1 hold first pass inspector", "point: W2 witness pass 2 inspector". */
export function checksOf(header: Map<string, string[]>): object {
  const checks = header.get('check')?.map((line) => {
    const [id, weight, role] = line.split(' ');
    return { id, text: id, weight, ...(role === undefined ? {} : { role }) };
  });
  const points = header.get('point')?.map((line) => {
    const [, id, kind, time, role] = /^(\S+) (hold|witness) (first pass|pass \S+|post-heating|closing) (.+)$/.exec(
      line,
    )!;
    const [before, pass] = time!.startsWith('pass ') ? ['pass', time!.slice(5)] : [time!, undefined];
    return { id, kind, before, role, ...(pass === undefined ? {} : { pass }) };
  });
  return { ...(checks === undefined ? {} : { checks }), ...(points === undefined ? {} : { points }) };
}

/** "answer dry in order", "answer dry not in order", "release H1", "waive H1", "refuse H1". Undefined for the verbs of other acts. */
export function checkActOf(verb: string, [name, ...rest]: readonly string[]): Act | undefined {
  if (verb === 'answer') {
    const answer = rest.join(' ') as 'in order' | 'not in order' | 'not applicable';
    return { kind: 'check answered', check: name!, answer, ...(answer === 'in order' ? {} : { note: 'as seen' }) };
  }
  if (verb === 'release') return { kind: 'point released', point: name! };
  if (verb === 'waive') return { kind: 'point waived', point: name!, reason: 'nobody could come' };
  if (verb === 'refuse') return { kind: 'point refused', point: name!, reason: 'grind the toe first' };
  return undefined;
}
