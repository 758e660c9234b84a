/**
 * Where lines may break. Words that are wider than their place are opened: a hash, a file name, a name without a
 * space; the typesetter breaks lines only between words, and a zero-width space marks where else it may. A number
 * stays with its unit.
 */
import type { Block, PageModel } from './page-model.ts';
import { widthOf } from './svg.ts';

/** Points, as in template.ts. */
const pageWidth = 511;
const bodySize = 9;
const tableSize = 7.5;
const cellPadding = 7;
/** A monospaced letter takes this share of its size. */
const monoWidth = 0.61;

export const wrapped = (model: PageModel): PageModel => ({
  ...model,
  title: broken(model.title, 18, pageWidth),
  above: model.above.map(wrapBlock),
  sections: model.sections.map((section) => ({ ...section, blocks: section.blocks.map(wrapBlock) })),
});

const wrapBlock = (block: Block): Block => {
  const body = (text: string): string => broken(text, bodySize, pageWidth - 30);
  switch (block.kind) {
    case 'paragraph':
      return { ...block, text: body(block.text) };
    case 'subheading':
      return { ...block, text: broken(block.text, 11, pageWidth - 10) };
    case 'frame':
      return { ...block, headline: broken(block.headline, 13, pageWidth - 30), lines: block.lines.map(body) };
    case 'figure':
      return { ...block, reason: broken(block.reason, bodySize, pageWidth / 2) };
    case 'limits': {
      const room = pageWidth / block.items.length - 14;
      return {
        ...block,
        items: block.items.map(({ label, value }) => ({
          label: broken(label, bodySize, room),
          value: broken(value, 22, room),
        })),
      };
    }
    case 'code':
      return {
        ...block,
        headline: broken(block.headline, 13, pageWidth - 130),
        lines: block.lines.map((text) => broken(text, bodySize, pageWidth - 130)),
      };
    case 'list':
      return { ...block, items: block.items.map(body) };
    case 'pairs':
      return {
        ...block,
        rows: block.rows.map(
          ([label, value]) => [broken(label, bodySize, 110), broken(value, bodySize, pageWidth - 145)] as const,
        ),
      };
    case 'table': {
      const shares = block.columns.reduce((sum, { share }) => sum + share, 0);
      const rooms = block.columns.map(({ share }) => (share / shares) * pageWidth - cellPadding);
      return {
        ...block,
        columns: block.columns.map((column, index) => ({
          ...column,
          heading: broken(column.heading, tableSize, rooms[index]!),
        })),
        rows: block.rows.map((row) =>
          row.map((cell, index) =>
            block.columns[index]?.mono === true
              ? chunked(cell, Math.max(4, Math.floor(rooms[index]! / (tableSize * monoWidth))))
              : broken(cell, tableSize, rooms[index]!),
          ),
        ),
      };
    }
    case 'picture':
      return { ...block, caption: body(block.caption) };
    case 'mono':
      return { ...block, text: chunked(block.text, 80) };
    case 'contents':
      return block;
    case 'signatures':
      return {
        ...block,
        lines: block.lines.map((each) =>
          each.name === undefined ? each : { ...each, name: broken(each.name, bodySize, pageWidth * 0.33) },
        ),
      };
  }
};

export const zeroWidthSpace = '\u200b';

const noBreakSpace = '\u00a0';
const withUnit = /(\d) (?=(?:°[CF]|K|mm|in|kJ|V|A|J|W|ml|h|min|s|d|%|bytes|kB|MB)(?![\p{L}\p{N}]))/gu;

/** Only words that would not fit on a line of their own are opened. */
const broken = (text: string, size: number, room: number): string =>
  text.replace(withUnit, `$1${noBreakSpace}`).replace(/\S+/gu, (word) => {
    if (widthOf(word, size) <= room) return word;
    return chunked(word, Math.max(2, Math.floor(room / (size * 0.66))));
  });

const chunked = (text: string, length: number): string => {
  const signs = [...text];
  if (signs.length <= length) return text;
  const chunks: string[] = [];
  for (let at = 0; at < signs.length; at += length) chunks.push(signs.slice(at, at + length).join(''));
  return chunks.join(zeroWidthSpace);
};
