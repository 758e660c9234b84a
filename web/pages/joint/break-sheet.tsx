/** The form of a break: begun, over, or inspected before welding goes on. */
import { breakAsksText } from '../../../server/wording/break.ts';
import { ChoiceField, TextField } from '../../parts/field.tsx';
import { type BreakStep, breakStepsNow, breakStepWords } from './break-draft.ts';
import { ExaminedFields } from './examined-fields.tsx';
import { Ago, SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

const reasons = ['End of shift', 'Pause', 'Equipment fails', 'Waiting for a release'] as const;

export function BreakSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('break', live, done);
  const { draft } = sheet;
  const steps = breakStepsNow(live);
  const step = steps.find((each) => each === draft.step) ?? steps[0] ?? 'break begun';
  return (
    <SheetFrame
      title="Break"
      sheet={sheet}
      back={back}
      action={actions[step]}
      later={{ title: 'It was earlier', content: <Ago sheet={sheet} what="It was" /> }}
    >
      {steps.length > 1 && (
        <ChoiceField
          label="What happened"
          value={step}
          choices={steps.map((each) => ({ value: each, text: breakStepWords[each] }))}
          onValue={(value) => sheet.set('step', value)}
        />
      )}
      <p>{meaning(step, live)}</p>
      {step === 'break begun' && (
        <>
          <ChoiceField
            label="Why"
            choices={reasons.map((each) => ({ value: each as string, text: each }))}
            value={draft.text ?? ''}
            onValue={(value) => sheet.set('text', value)}
          />
          <TextField label="Why, in your words" {...sheet.entry('text')} wide />
        </>
      )}
      {step === 'inspected' && (
        <>
          <ExaminedFields sheet={sheet} />
          <TextField label="Note" optional {...sheet.entry('note')} wide />
        </>
      )}
    </SheetFrame>
  );
}

const actions: Readonly<Record<BreakStep, string>> = {
  'break begun': 'Record the break',
  'break ended': 'Record that it is over',
  inspected: 'Record the inspection',
};

function meaning(step: BreakStep, { assessment }: SheetProps['live']): string {
  if (step === 'break begun') return 'How cold the joint gets from now on is watched and kept.';
  if (step === 'inspected') return 'The joint was examined since the break, before welding goes on.';
  const newest = assessment.breaks?.at(-1);
  const asks =
    newest === undefined
      ? undefined
      : breakAsksText(newest, assessment.limits.preheatMinimum, assessment.requirement.units);
  return asks === undefined ? 'Welding goes on.' : `Asked for before the next pass: ${asks}.`;
}
