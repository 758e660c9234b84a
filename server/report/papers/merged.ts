/** Answers that are the same for several parts stand once, with the parts that they hold for. */
export interface Merged<Of> {
  readonly one: Of;
  readonly parts: readonly string[];
}

/** In the order of the list; whether two are the same is seen by everything but their part. */
export function merged<Of extends { readonly part: string }>(all: readonly Of[]): Merged<Of>[] {
  const groups = new Map<string, { one: Of; parts: string[] }>();
  for (const one of all) {
    const key = JSON.stringify({ ...one, part: '' });
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { one, parts: [one.part] });
    else known.parts.push(one.part);
  }
  return [...groups.values()];
}

/** In the order of the first of each key. */
export function groupedBy<Of>(all: readonly Of[], key: (one: Of) => string): [key: string, ...all: Of[]][] {
  const groups = new Map<string, Of[]>();
  for (const one of all) groups.set(key(one), [...(groups.get(key(one)) ?? []), one]);
  return [...groups].map(([name, list]) => [name, ...list]);
}
