/** A line of a certificate cut into what it consists of: symbols with their scale, values, scales, and other words. */
import type { Element } from '../../../server/weld/composition.ts';
import { elementOf, type Scale, scaleOf } from './paste-words.ts';

export type Token =
  | { readonly kind: 'symbol'; readonly text: string; readonly element: Element; readonly scale: Scale | undefined }
  | { readonly kind: 'value' | 'word'; readonly text: string }
  | { readonly kind: 'scale'; readonly text: string; readonly scale: Scale };

export const tokensOf = (line: string): readonly Token[] => {
  const tokens: Token[] = [];
  let rest = begun(line);
  while (rest !== '') {
    const token = scaleToken(rest) ?? valueToken(rest) ?? solubleToken(rest) ?? symbolToken(rest) ?? wordToken(rest);
    tokens.push(token);
    rest = begun(rest.slice(token.text.length));
  }
  return tokens;
};

/** Without what only stands between words. */
const begun = (text: string): string => text.replace(/^[\s;,|:=]+/, '');

const unit = String.raw`(?:(?:wt\.?|mass|m)?\s?-?\s?%|ppmw?|mg\/kg|[µμu]g\/g)`;
const factor = String.raw`(?:%\s?)?(?:[x×*·]\s?10(?:0{1,3}|\s?\^?\s?[-\u2212⁻]?[2-4²³⁴])?|10\s?\^?\s?[-\u2212⁻]\s?[2-4²³⁴]|1?\/10{2,4})(?:\s?%)?`;
const scale = String.raw`(?:[[(]\s?(?:${factor}|${unit})\s?[\])]|${factor}|${unit})`;
const ends = String.raw`(?=$|[\s;,|:=])`;

const atScale = new RegExp(`^${scale}${ends}`, 'i');
const atValue = new RegExp(
  String.raw`^(?:(?:<=?|\u2264|max\.?|at most)\s*)?(?:\d+(?:[.,]\d+)*|[.,]\d+)(?:\s*max\.?(?![a-z]))?(?:\s*${unit})?${ends}`,
  'i',
);
const atSilence = new RegExp(String.raw`^(?:n\.?\s?r\.?|n\.a\.|n\/a|not reported|-{1,3}|[\u2013\u2014])${ends}`, 'i');
const atSymbol = /^(Al[\s.\-(]{0,2}(?:total|tot|t)[.)]{0,2}|[A-Za-z]+2?)(?![A-Za-z0-9+])/i;
/** A symbol and its scale without a space: "Px1000". */
const atGlued = /^([A-Z][a-z]?)(?=[x×*]\s?10)/;
/** Soluble aluminium, which is not the aluminium of an analysis. */
const atSoluble = /^Al[\s.\-(]{0,2}s(?:ol(?:uble)?)?[.)]{0,2}(?![a-z])/i;
const attached = new RegExp(String.raw`^[\s:=,]*(${scale})(?=$|[\s;,|:=<\d])`, 'i');

const scaleToken = (text: string): Token | undefined => {
  const found = atScale.exec(text)?.[0];
  const known = found === undefined ? undefined : scaleOf(found);
  return known === undefined ? undefined : { kind: 'scale', text: found!, scale: known };
};

const valueToken = (text: string): Token | undefined => {
  const found = (atValue.exec(text) ?? atSilence.exec(text))?.[0];
  return found === undefined ? undefined : { kind: 'value', text: found };
};

const solubleToken = (text: string): Token | undefined => {
  const found = atSoluble.exec(text)?.[0];
  return found === undefined ? undefined : { kind: 'word', text: found };
};

const symbolToken = (text: string): Token | undefined => {
  const word = (atGlued.exec(text) ?? atSymbol.exec(text))?.[1];
  const element = word === undefined ? undefined : elementOf(word);
  if (word === undefined || element === undefined) return undefined;
  const after = text.slice(word.length);
  const found = attached.exec(after);
  const known = found === null ? undefined : scaleOf(found[1]!);
  return known === undefined
    ? { kind: 'symbol', text: word, element, scale: undefined }
    : { kind: 'symbol', text: word + found![0], element, scale: known };
};

const wordToken = (text: string): Token => ({ kind: 'word', text: /^[^\s;,|:=]+/.exec(text)?.[0] ?? text });
