/** The form of what comes after the last arc: one step at a time, the likely one chosen already. */

import type { Assessment } from '../../../server/judgement/assessment.ts';
import { tooEarlyText } from '../../../server/wording/after-open.ts';
import { limitText } from '../../../server/wording/temperature.ts';
import { durationText } from '../../../server/wording/time.ts';
import { ChoiceField, TextField } from '../../parts/field.tsx';
import { type AfterStep, stepsNow, stepWords } from './after-draft.ts';
import { ExaminedFields } from './examined-fields.tsx';
import { Ago, SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function AfterSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('after', live, done);
  const { draft } = sheet;
  const steps = stepsNow(live);
  const step = steps.find((each) => each === draft.step) ?? steps[0]!;
  const spots = live.assessment.after?.spots ?? [];
  return (
    <SheetFrame
      title="After welding"
      sheet={sheet}
      back={back}
      action={`Record: ${stepWords[step].toLowerCase()}`}
      later={{ title: 'It was earlier', content: <Ago sheet={sheet} what="It was" /> }}
    >
      {steps.length > 1 && (
        <ChoiceField
          label="What happened"
          value={step}
          choices={steps.map((each) => ({ value: each, text: stepWords[each] }))}
          onValue={(value) => sheet.set('step', value)}
        />
      )}
      <p>{means[step]}</p>
      {step === 'post-heating begun' && <AskedHeat assessment={live.assessment} />}
      <TooEarly step={step} assessment={live.assessment} />
      {step === 'testing begun' && (
        <div class="fields">
          <TextField label="Method" {...sheet.entry('method')} />
        </div>
      )}
      {step === 'spot examined' && (
        <>
          <ChoiceField
            label="Spot of probe"
            choices={spots.map(({ probe, examined }) => ({
              value: probe,
              text: examined === undefined ? probe : `${probe} (again)`,
            }))}
            {...sheet.entry('spot')}
          />
          <ExaminedFields sheet={sheet} />
        </>
      )}
    </SheetFrame>
  );
}

/** What post-heating asks for: nobody has to look it up elsewhere before setting the controller. */
function AskedHeat({ assessment: { after, requirement } }: { readonly assessment: Assessment }) {
  const asked = after?.postHeating;
  if (asked === undefined) return null;
  const { units } = requirement;
  const most = asked.maximum === undefined ? '' : `, nowhere above ${limitText(asked.maximum, units)}`;
  return (
    <p class="notice">
      Asked for: every zone place at {limitText(asked.minimum, units)} or above{most}, for{' '}
      {durationText(asked.required)}. Set the controller between, with room for what differs from place to place.
    </p>
  );
}

/** What the step would be recorded as, where its time has not come. */
function TooEarly({ step, assessment }: { readonly step: AfterStep; readonly assessment: Assessment }) {
  const says = tooEarlyText(step, assessment);
  return says === undefined ? null : <p class="notice loud">{says}</p>;
}

const means: Readonly<Record<AfterStep, string>> = {
  'welding complete': 'The last arc is out. A pass that is started later takes this back.',
  'post-heating begun': 'Until this is entered the joint has to stay at the minimum preheat.',
  'post-heating ended': 'What was held at temperature is judged when it ends.',
  'cover on': 'The joint is covered to cool slowly.',
  'cover off': 'The temperature at which the cover comes off is judged.',
  'heat treatment begun': 'The temperature and the time since welding are judged.',
  'testing begun': 'The time since welding is judged against the waiting time.',
  'spot examined': 'Where the probe was welded on the part is ground flush and examined.',
};
