/** What is to be told alike of several parts is told once, with the parts that it holds for. */
export interface Shared<Of, Told> {
  /** The first of them. */
  readonly one: Of;
  readonly told: Told;
  readonly parts: readonly string[];
}

/** In the order of the list; `told` is compared by its value. */
export function sharedByParts<Of extends { readonly part: string }, Told>(
  all: readonly Of[],
  told: (one: Of) => Told,
): readonly Shared<Of, Told>[] {
  const groups = new Map<string, { one: Of; told: Told; parts: string[] }>();
  for (const one of all) {
    const own = told(one);
    const key = JSON.stringify(own);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { one, told: own, parts: [one.part] });
    else known.parts.push(one.part);
  }
  return [...groups.values()];
}

/** Everything of an answer but its part: to compare whole answers by. */
export const apartFromPart = <Of extends { readonly part: string }>({ part: _, ...rest }: Of): Omit<Of, 'part'> => rest;
