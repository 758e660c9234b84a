/** What the procedure says of breaks, as it stands in the form, and from there to the joint file and back. */
import { type AfterBreakAsk, afterBreakAsks } from '../../../server/weld/break.ts';
import type { Joint } from '../../../server/weld/joint.ts';

const nothing = 'nothing';
const joiner = ' + ';

export interface BreakDraft {
  readonly after: string;
  /** Empty: not stated. "nothing", or what is asked for, joined by " + ". */
  readonly warm: string;
  readonly cold: string;
  readonly by: string;
}

export const emptyBreaks: BreakDraft = { after: '', warm: '', cold: '', by: '' };

export const breakDraftOf = (breaks: NonNullable<Joint['procedure']>['breaks']): BreakDraft => ({
  after: breaks?.afterMinutes === undefined ? '' : String(breaks.afterMinutes),
  warm: asksText(breaks?.keptWarm),
  cold: asksText(breaks?.fellBelow),
  by: breaks?.inspectedBy ?? '',
});

/** Undefined where nothing of it is stated; `afterMinutes` as it was read. */
export const breaksOf = ({ warm, cold, by }: BreakDraft, afterMinutes: number | undefined): object | undefined => {
  const stated = {
    ...(afterMinutes === undefined ? {} : { afterMinutes }),
    ...(warm === '' ? {} : { keptWarm: asksOf(warm) }),
    ...(cold === '' ? {} : { fellBelow: asksOf(cold) }),
    ...(by === '' ? {} : { inspectedBy: by }),
  };
  return Object.keys(stated).length === 0 ? undefined : stated;
};

export const askChoices = (unstated: string): readonly { readonly value: string; readonly text: string }[] => [
  { value: '', text: unstated },
  { value: nothing, text: 'Nothing beside the minimum' },
  { value: 'soak again', text: 'Soak again' },
  { value: 'inspection', text: 'Inspection' },
  { value: afterBreakAsks.join(joiner), text: 'Soak again and inspection' },
];

const asksText = (asks: readonly AfterBreakAsk[] | undefined): string => {
  if (asks === undefined) return '';
  return asks.length === 0 ? nothing : afterBreakAsks.filter((each) => asks.includes(each)).join(joiner);
};

const asksOf = (text: string): readonly string[] => (text === nothing ? [] : text.split(joiner));
