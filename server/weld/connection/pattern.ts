/**
 * The pattern of a line: text as it stands, and places in braces. It is matched from left to right in one walk: a place
 * reaches to the next text of the pattern, and nothing is ever tried again, so that no line can make it slow.
 */

export type Place = number | 'channel' | 'value' | 'cold' | 'anything';
export type Piece = string | { readonly place: Place };

/** Or why it is none. */
export function piecesOf(pattern: string): readonly Piece[] | string {
  const pieces: Piece[] = [];
  const seen = new Set<Place>();
  let rest = pattern.trim();
  while (rest !== '') {
    const open = rest.indexOf('{');
    const text = (open < 0 ? rest : rest.slice(0, open)).replace(/[ \t]+/g, ' ');
    if (text.includes('}')) return 'a brace { before each }';
    if (text !== '') pieces.push(text);
    if (open < 0) break;
    const close = rest.indexOf('}', open);
    if (close < 0) return 'a brace } after each {';
    const place = placeOf(rest.slice(open + 1, close));
    if (place === undefined)
      return `places {1} to {16}, {channel}, {value}, {cold} and {*}; "${rest.slice(open, close + 1)}" is none of them`;
    if (place !== 'anything' && seen.has(place)) return `each place once; ${rest.slice(open, close + 1)} stands twice`;
    if (typeof pieces.at(-1) === 'object') return 'some text between two places, so that it can be told where one ends';
    seen.add(place);
    pieces.push({ place });
    rest = rest.slice(close + 1);
  }
  return pieces;
}

const placeOf = (word: string): Place | undefined => {
  if (word === '*') return 'anything';
  if (word === 'channel' || word === 'value' || word === 'cold') return word;
  return /^([1-9]|1[0-6])$/.test(word) ? Number(word) : undefined;
};

/** What stands at each place; undefined where the line is not written so. */
export function match(pieces: readonly Piece[], line: string): ReadonlyMap<Place, string> | undefined {
  const text = line.trim().replace(/[ \t]+/g, ' ');
  const found = new Map<Place, string>();
  let at = 0;
  let open: Place | undefined;
  for (const [index, piece] of pieces.entries()) {
    if (typeof piece !== 'string') {
      open = piece.place;
      continue;
    }
    const isLast = index === pieces.length - 1;
    // A blank at the pattern's end of a text may have gone with the line's own edge.
    const end =
      open === undefined
        ? text.startsWith(piece, at)
          ? at
          : -1
        : isLast
          ? endOf(text, piece, at)
          : text.indexOf(piece, at);
    if (end < 0) return undefined;
    if (open !== undefined) found.set(open, text.slice(at, end).trim());
    open = undefined;
    at = end + piece.length;
  }
  if (open !== undefined) {
    found.set(open, text.slice(at).trim());
    return found;
  }
  return at >= text.length ? found : undefined;
}

/** The last text of a pattern ends the line. */
const endOf = (text: string, piece: string, at: number): number => {
  const from = text.length - piece.length;
  return from >= at && text.endsWith(piece) ? from : -1;
};
