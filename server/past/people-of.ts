/** Who had to do with a joint, and in which parts, by what its entries say. */
import type { Input } from '../weld/entry.ts';

export interface CardPerson {
  readonly name: string;
  /** As stated with the entries; "welder" also where a pass names the person so. None where nobody stated one. */
  readonly roles: readonly string[];
}

/** The program's own entries are nobody's. */
const isPerson = (name: string): boolean => name !== 'station' && name !== '';

export function peopleOf(
  openedBy: string,
  inputs: readonly Input[],
  passes: readonly { readonly welder: string }[],
): CardPerson[] {
  const known = new Map<string, Set<string>>();
  const add = (name: string, role?: string): void => {
    if (!isPerson(name)) return;
    const roles = known.get(name) ?? new Set();
    if (role !== undefined) roles.add(role);
    known.set(name, roles);
  };
  add(openedBy);
  for (const input of inputs) {
    if (input.type !== 'act') continue;
    add(input.who, input.role);
    if (input.act.kind === 'hand-over') add(input.act.to);
  }
  for (const { welder } of passes) add(welder, 'welder');
  return [...known].map(([name, roles]) => ({ name, roles: [...roles] }));
}
