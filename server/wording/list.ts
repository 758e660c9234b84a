/** Lists and sentence beginnings. */

/** "A", "A and B", "A, B and C"; past six, "A, B, C, D, E, F and 3 more". */
export const listText = (names: readonly string[]): string =>
  wholeListText(names.length > 6 ? [...names.slice(0, 6), `${names.length - 6} more`] : names);

/** However many: for paper, which nobody can open further. */
export const wholeListText = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** First letter large or small, the rest untouched. A probe's name stays as it is: only our own words are handed in. */
export const begun = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
export const inside = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
