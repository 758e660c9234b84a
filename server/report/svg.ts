/** A few words of SVG. Text is always escaped; numbers are rounded to hundredths, so that bytes stay few and the same. */
import { family, wideFamily } from './font-names.ts';

export const number = (value: number): string => `${Math.round(value * 100) / 100}`;

export const escaped = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&apos;');

export const text = (
  x: number,
  y: number,
  words: string,
  { size = 7, anchor = 'start', weight = 'normal', fill = '#000' } = {},
): string =>
  `<text x="${number(x)}" y="${number(y)}" font-family="${family}, ${wideFamily}" font-size="${number(size)}"${
    anchor === 'start' ? '' : ` text-anchor="${anchor}"`
  }${weight === 'normal' ? '' : ` font-weight="${weight}"`} fill="${fill}">${escaped(words)}</text>`;

export const line = (x1: number, y1: number, x2: number, y2: number, stroke = '#000', width = 0.5, dash = ''): string =>
  `<line x1="${number(x1)}" y1="${number(y1)}" x2="${number(x2)}" y2="${number(y2)}" stroke="${stroke}" stroke-width="${number(width)}"${
    dash === '' ? '' : ` stroke-dasharray="${dash}"`
  }/>`;

export const rectangle = (
  x: number,
  y: number,
  width: number,
  height: number,
  { fill = 'none', stroke = 'none', strokeWidth = 0.5 } = {},
): string =>
  `<rect x="${number(x)}" y="${number(y)}" width="${number(Math.max(0, width))}" height="${number(Math.max(0, height))}" fill="${fill}"${
    stroke === 'none' ? '' : ` stroke="${stroke}" stroke-width="${number(strokeWidth)}"`
  }/>`;

export const path = (d: string, { stroke = 'none', width = 0.5, fill = 'none', dash = '' } = {}): string =>
  `<path d="${d}" fill="${fill}"${stroke === 'none' ? '' : ` stroke="${stroke}" stroke-width="${number(width)}" stroke-linejoin="round"`}${
    dash === '' ? '' : ` stroke-dasharray="${dash}"`
  }/>`;

export const svg = (width: number, height: number, parts: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}" height="${number(height)}" viewBox="0 0 ${number(width)} ${number(height)}">${parts.join('')}</svg>`;

/** Width of words at a size, near enough to lay them out: the face is narrow, and capitals and digits are wider than the rest. */
export const widthOf = (words: string, size: number): number =>
  [...words].reduce((sum, sign) => sum + (/[\p{Lu}\p{N}MWmw]/u.test(sign) ? 0.64 : 0.53), 0) * size;

/** Shortened with an ellipsis where it would not fit. */
export const fitted = (words: string, size: number, room: number): string => {
  if (widthOf(words, size) <= room) return words;
  const signs = [...words];
  while (signs.length > 1 && widthOf(`${signs.join('')}…`, size) > room) signs.pop();
  return `${signs.join('')}…`;
};

/** Moves marks on one axis apart so that each has its room, as little as can be, within bounds. */
export const spread = (wanted: readonly number[], room: number, lowest: number, highest: number): number[] => {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const placed = new Array<number>(wanted.length).fill(0);
  let next = lowest;
  for (const index of order) {
    placed[index] = Math.max(wanted[index]!, next);
    next = placed[index]! + room;
  }
  let limit = highest;
  for (const index of order.toReversed()) {
    placed[index] = Math.min(placed[index]!, limit);
    limit = placed[index]! - room;
  }
  return placed;
};
