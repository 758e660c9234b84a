/** Lists of what has the same key, in the order of the first of each. */
export function groupedBy<Of>(all: readonly Of[], key: (one: Of) => string): [key: string, ...all: Of[]][] {
  const groups = new Map<string, Of[]>();
  for (const one of all) groups.set(key(one), [...(groups.get(key(one)) ?? []), one]);
  return [...groups].map(([name, list]) => [name, ...list]);
}
