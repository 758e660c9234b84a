/** What the procedure asks of each pass, as it stands in the form, and from there to the joint file and back. */
import type { Joint } from '../../../server/weld/joint.ts';
import type { QuantityKind } from './quantity.ts';

export interface PassesDraft {
  /** What the window counts; empty where none is stated. */
  readonly counted: string;
  readonly least: string;
  readonly most: string;
  /** Interpass within a pass: empty, 'minutes' or 'revolution'. */
  readonly every: string;
  readonly everyMinutes: string;
}

export const emptyPasses: PassesDraft = { counted: '', least: '', most: '', every: '', everyMinutes: '' };

export const passesDraftOf = (procedure: Joint['procedure']): PassesDraft => {
  const { heatInput: window, interpassEvery: every } = procedure ?? {};
  const text = (value: number | undefined): string => (value === undefined ? '' : String(value));
  return {
    counted: window?.counted ?? '',
    least: text(window?.minimumKilojoulesPerMillimetre),
    most: text(window?.maximumKilojoulesPerMillimetre),
    every: every === undefined ? '' : every === 'revolution' ? every : 'minutes',
    everyMinutes: every === undefined || every === 'revolution' ? '' : text(every.minutes),
  };
};

interface Reader {
  number(text: string, field: string, needed?: boolean): number | undefined;
  quantity(text: string, kind: QuantityKind, field: string): number | undefined;
}

/** The fields of the procedure; each undefined where nothing of it is stated. */
export const passesOf = ({ counted, least, most, every, everyMinutes }: PassesDraft, { number, quantity }: Reader) => ({
  heatInput: [counted, least, most].some((text) => text.trim() !== '')
    ? stated({
        counted: counted === '' ? undefined : counted,
        minimumKilojoulesPerMillimetre: quantity(least, 'heat input', `${window}.minimumKilojoulesPerMillimetre`),
        maximumKilojoulesPerMillimetre: quantity(most, 'heat input', `${window}.maximumKilojoulesPerMillimetre`),
      })
    : undefined,
  interpassEvery:
    every === 'minutes'
      ? stated({ minutes: number(everyMinutes, 'procedure.interpassEvery.minutes', true) })
      : every === ''
        ? undefined
        : every,
});

const window = 'procedure.heatInput';
const stated = (object: Record<string, unknown>): object =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
