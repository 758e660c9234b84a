/**
 * Makes a page model printable: what the font has no glyph for, or what would hide or reorder text, is
 * printed as its code point, as in [U+7530], and the first page says so. Nothing is dropped, and nothing that
 * a person typed can stop a report.
 */
import type { Block, PageModel } from './page-model.ts';

export const legible = (model: PageModel, covers: (codePoint: number) => boolean): PageModel => {
  const replaced = new Set<string>();
  const printable = (text: string): string =>
    text.replace(notPlain, (sign) => {
      const code = sign.codePointAt(0)!;
      if (covers(code) && !invisible.test(sign)) return sign;
      if (sign === '\t' || sign === '\r') return ' ';
      replaced.add(sign);
      return `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
    });
  const mapped = mapText(model, printable);
  const [first, ...others] = mapped.sections;
  if (replaced.size === 0 || first === undefined) return mapped;
  return { ...mapped, sections: [{ ...first, blocks: [...first.blocks, remark(replaced.size)] }, ...others] };
};

/** Whether some text of the model has a sign that is not covered. */
export const hasOther = (model: PageModel, covers: (codePoint: number) => boolean): boolean => {
  let found = false;
  mapText(model, (text) => {
    found ||= (text.match(notPlain) ?? []).some((sign) => !covers(sign.codePointAt(0)!));
    return text;
  });
  return found;
};

/** All but the signs of ASCII, which every face has: pictures are long texts, and hold hardly another. */
const notPlain = /[^\n\x20-\x7e]/gu;
/** Controls, format signs (also those that turn the direction of reading), lone surrogates, private and unassigned. */
const invisible = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}]/u;

const remark = (count: number): Block => ({
  kind: 'paragraph',
  weight: 'small',
  text: `${count === 1 ? 'One character that this report has no letter for is' : `${count} characters that this report has no letters for are`} printed as a code in brackets, as in [U+0000]. The record keeps them as they were typed.`,
});

/** Applies a function to every text in a plain structure. */
const mapText = <T>(value: T, change: (text: string) => string): T => mapAny(value, change) as T;

const mapAny = (value: unknown, change: (text: string) => string): unknown => {
  if (typeof value === 'string') return change(value);
  if (Array.isArray(value)) return value.map((each) => mapAny(each, change));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, mapAny(each, change)]));
  return value;
};
