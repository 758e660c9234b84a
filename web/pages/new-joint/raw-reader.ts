/** Reads what was typed: numbers in the units of the job, and what is wrong with a text as such, by field. */
import { type NumberText, readNumber } from '../../../server/measure/number-text.ts';
import type { JointDraft } from './draft.ts';
import { type QuantityKind, readQuantity, unitOf } from './quantity.ts';

export interface Reader {
  readonly problems: Record<string, string>;
  readonly typed: Record<string, readonly [string, string]>;
  number(text: string, field: string, needed?: boolean): number | undefined;
  quantity(text: string, kind: QuantityKind, field: string, needed?: boolean): number | undefined;
}

export function createReader({ units }: JointDraft): Reader {
  const problems: Record<string, string> = {};
  const typed: Record<string, readonly [string, string]> = {};
  const taken = (read: NumberText, text: string, field: string, needed: boolean): number | undefined => {
    if (read.kind === 'number') return read.value;
    if (read.kind === 'not a number')
      problems[field] = `"${text.trim()}" is not a number. Write it like 12.5, without a thousands sign.`;
    else if (needed) problems[field] = 'Needed: a number.';
    return undefined;
  };
  return {
    problems,
    typed,
    number: (text, field, needed = false) => taken(readNumber(text), text, field, needed),
    quantity(text, kind, field, needed = false) {
      if (units === 'inch') typed[field] = [`${text.trim()} ${unitOf(kind, 'inch')}`, unitOf(kind, 'metric')];
      return taken(readQuantity(text, kind, units), text, field, needed);
    },
  };
}

export const filled = (text: string): string | undefined => (text.trim() === '' ? undefined : text.trim());
export const begunGroup = (...texts: readonly string[]): boolean => texts.some((text) => text.trim() !== '');

/** Without the fields that are absent: in a file, absent and undefined are not the same. */
export const clean = (object: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
