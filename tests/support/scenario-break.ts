/** What a scenario says of breaks: its header line and its acts. */
import type { Act } from '../../server/weld/entry.ts';

/** "breaks: after 15, warm soak again, cold soak again + inspection, by inspector"; "cold nothing" is a list that is empty. */
export function breaksOf(header: Map<string, string[]>): object {
  const line = header.get('breaks')?.[0];
  if (line === undefined) return {};
  const facts = new Map(
    line.split(/,\s*/).map((each) => {
      const [key, ...value] = each.split(' ');
      return [key!, value.join(' ')];
    }),
  );
  const asks = (key: string): object =>
    facts.has(key) ? { [key === 'warm' ? 'keptWarm' : 'fellBelow']: listOf(facts.get(key)!) } : {};
  return {
    breaks: {
      ...(facts.has('after') ? { afterMinutes: Number(facts.get('after')) } : {}),
      ...asks('warm'),
      ...asks('cold'),
      ...(facts.has('by') ? { inspectedBy: facts.get('by') } : {}),
    },
  };
}

const listOf = (text: string): string[] => (text === 'nothing' ? [] : text.split(' + '));

/** "break begun", "break ended", "inspect", "inspect bad". Undefined for the verbs of other acts. */
export function breakActOf(verb: string, rest: readonly string[]): Act | undefined {
  if (verb === 'break' && rest[0] === 'begun') return { kind: 'break', state: 'begun', reason: 'end of shift' };
  if (verb === 'break') return { kind: 'break', state: 'ended' };
  if (verb === 'inspect')
    return { kind: 'break inspected', method: 'MT', result: rest[0] === 'bad' ? 'indication' : 'no indication' };
  return undefined;
}
