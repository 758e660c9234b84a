/** Slips of typing that can be named: numbers written as text, decimal commas, "<" before a bound, a misspelt field. */

/** How a text that stands where a number belongs should be written, or undefined where it is no number. */
export function numberSlip(found: unknown, allowed: string): string | undefined {
  if (typeof found !== 'string' || !allowed.includes('number')) return undefined;
  const match = /^\s*([<≤]?)\s*([+-]?\d+(?:[.,]\d+)?)\s*(\S*)\s*$/.exec(found);
  if (match === null) return undefined;
  const [, bound, digits, unit] = match;
  const value = Number(digits!.replace(',', '.'));
  if (bound !== '') return `write a bound as {"atMost": ${value}}`;
  const without = unit === '' ? '' : ' and without its unit';
  return `write a number without quotes, with a decimal point${without}: ${value}`;
}

/** The known name that is closest to what was typed, if any is close. */
export function nearest(typed: string, known: readonly string[]): string | undefined {
  const low = typed.toLowerCase();
  const starts = known.find((name) => low.length >= 3 && name.toLowerCase().startsWith(low));
  if (starts !== undefined) return starts;
  const scored = known.map((name) => ({ name, distance: distance(low, name.toLowerCase()) }));
  const best = scored.sort((a, b) => a.distance - b.distance)[0];
  // Names of one or two letters are elements and ids: another element is no misspelling of this one.
  const near = best === undefined || best.name.length <= 2 ? 0 : Math.ceil(best.name.length / 4);
  return best !== undefined && best.distance <= near ? best.name : undefined;
}

/** Levenshtein distance: insertions, deletions and replacements. Bounded by the length of what can be typed here. */
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 20) return Number.POSITIVE_INFINITY;
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const replaced = previous[column - 1]! + (a[row - 1] === b[column - 1] ? 0 : 1);
      current.push(Math.min(replaced, previous[column]! + 1, current[column - 1]! + 1));
    }
    previous = current;
  }
  return previous[b.length]!;
}
