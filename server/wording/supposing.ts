/** A "what if" in words: what was supposed, what would come of it, what it had to take for granted. The same for page and terminal. */
import type { Finding } from '../judgement/assessment.ts';
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Remark, SupposedAnswer, SupposedPlace } from '../supposing/answer.ts';
import type { Supposition } from '../supposing/supposition.ts';
import { findingText } from './finding.ts';
import { temperatureText } from './temperature.ts';
import { durationText } from './time.ts';
import { verdictHeadline } from './words.ts';

/** Stands over every answer, on screen, terminal and paper. */
export const notTheRecord = 'WHAT IF, NOT THE RECORD';
export const whatItIs =
  'The same judge, run again over what was recorded with one thing supposed otherwise. Nothing of it is recorded, and nothing of it changes the verdict.';

export function supposedText(supposed: Supposition, units: UnitSystem): string {
  const celsius = (value: number): string => temperatureText((value * 1000) as MilliCelsius, units);
  switch (supposed.kind) {
    case 'far face insulated':
      return 'If the face that is not heated had been insulated, on every part';
    case 'probe left out':
      return `If ${supposed.probe} had never been fitted`;
    case 'more time':
      return `If pass ${supposed.pass} had begun ${minutesText(supposed.minutes)} later`;
    case 'other limits': {
      const { preheatMinimumCelsius: minimum, interpassMaximumCelsius: maximum } = supposed;
      const { soakHoldMinutes: hold, throughThicknessHoldMinutes: core } = supposed;
      const stated = [
        ...(minimum === undefined ? [] : [`a minimum of ${celsius(minimum)}`]),
        ...(maximum === undefined ? [] : [`a maximum interpass of ${celsius(maximum)}`]),
        ...(hold === undefined ? [] : [`a hold of ${minutesText(hold)}`]),
        ...(core === undefined ? [] : [`${minutesText(core)} at the minimum through the thickness`]),
      ];
      return `If the procedure had asked for ${stated.join(', ')}`;
    }
  }
}

/** Which state of the record this is about, where it is not the whole of a closed one. `tell` writes an instant. */
export function stoodText(
  { at, open, past }: SupposedAnswer['stood'],
  tell: (at: Instant) => string,
): string | undefined {
  if (!open && !past) return undefined;
  const which = past
    ? `As it stood at ${tell(at)}, by what had been recorded by then`
    : `As it stands, recorded up to ${tell(at)}`;
  return open ? `${which}. STILL OPEN: every verdict here is one so far.` : `${which}.`;
}

/** One sentence: what the verdict would be beside what it is. */
export function outcomeText({ now, verdicts, stood }: SupposedAnswer): string {
  const is = `${stood.open ? 'So far' : 'Judged today'}: ${verdictHeadline(now.verdict).toLowerCase()}`;
  const [only, other] = verdicts;
  if (only === undefined) return `${is}. What the verdict would be cannot be known.`;
  if (other !== undefined) {
    const either = verdicts.map((each) => verdictHeadline(each).toLowerCase()).join(' or ');
    return `${is}. What it would be cannot be known: between what is possible, ${either}.`;
  }
  const would = verdictHeadline(only).toLowerCase();
  return only === now.verdict ? `${is}. It would be the same.` : `${is}. It would be: ${would}.`;
}

/** Rows of moments: what, as it is, as it would be. `tell` writes an instant. */
export function momentRows(
  answer: SupposedAnswer,
  tell: (at: Instant) => string,
): [what: string, is: string, would: string][] {
  const { now, wouldBe, verdicts, supposition, stood } = answer;
  const settled = verdicts.length > 0;
  const never = stood.open ? 'not by then' : 'never';
  const told = (at: Instant | undefined, otherwise: string): string => (at === undefined ? otherwise : tell(at));
  const rows: [string, string, string][] = [
    ['Warm through every part, and held as asked', told(now.coreAt, 'not shown'), told(wouldBe.coreAt, 'not shown')],
  ];
  if (!settled) return rows;
  if (supposition.kind !== 'more time' || now.passes[0]?.pass === supposition.pass)
    rows.unshift([
      'All ready for the first arc',
      told(now.firstReadyAt, never),
      told(wouldBe.firstReadyAt, supposition.kind === 'more time' ? 'not in that time' : never),
    ]);
  for (const pass of wouldBe.passes) {
    const is = now.passes.find((each) => each.pass === pass.pass);
    rows.push([
      `All ready for pass ${pass.pass}`,
      told(is?.readyAt, 'never before it began'),
      told(pass.readyAt, supposition.kind === 'more time' ? 'not in that time, or not known' : 'never before it began'),
    ]);
  }
  return rows;
}

export const changeText = (finding: Finding, units: UnitSystem): string => findingText(finding, units).what;

/** "P1: 204 °C as measured; 168 °C" or "between 198 and 201 °C" or "its course does not tell". */
export function placeText({ probe, asMeasured, low, high }: SupposedPlace, units: UnitSystem): string {
  const text = (value: number): string => temperatureText(value as MilliCelsius, units);
  if (asMeasured === undefined || low === undefined || high === undefined)
    return `${probe}: its last minutes do not tell where it would have gone; taken as not read`;
  const would = low === high ? text(low) : `between ${text(low)} and ${text(high)}`;
  return `${probe}: ${text(asMeasured)} when the pass began, then ${would}`;
}

export const remarkText = (remark: Remark): string => remarks[remark];

const remarks: Readonly<Record<Remark, string>> = {
  'heated face as measured':
    'The readings of the heated face are taken as they were measured. With less loss behind it, the same heat would have made it as warm or warmer, so that the core would have been warm at that moment at the latest.',
  'far face was measured':
    'The far face was measured as it was, not insulated. Those readings are left out, the heat through the thickness follows from the heated face alone, and what the findings would have been cannot be known.',
  'far face had no bearing': 'Both faces were heated: there is no face whose loss could be supposed away.',
  'place not measured then':
    'The place of the probe is taken as one that nobody measured. That a finding goes without it shows that it hangs on this probe, not that the place was warm.',
  'entries about the probe left out':
    'Entries about the probe alone (doubted, trusted again, a spare in its place, its spot) are left out.',
  'nothing else is done meanwhile':
    'Until the pass begins nothing else is done: heaters as they were, no arc. Each place is carried on from its last three minutes between two ends: its last change going on in a straight line, and its changes getting smaller as they last did. Both are judged.',
  'later passes as they were':
    'What came after the pass had begun stands as it was judged: how the later readings would have been cannot be known.',
  'evenness cannot be known': 'How far apart the places would have been is not carried on.',
  'some places cannot be carried on':
    'Where something had acted on the joint less than a minute before, or a place did not move like a part that is left to itself, nothing is said of it: it is taken as not read.',
  'limits of no procedure': 'The joint has no procedure; the limits are taken by simple acceptance.',
};

const minutesText = (minutes: number): string => durationText(milliseconds(minutes * 60_000));
