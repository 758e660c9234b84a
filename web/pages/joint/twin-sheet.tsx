/**
 * A reading by hand beside one probe, in three taps with gloves on: open, touch the value, record. What the probe itself
 * reads is not shown here, so that it does not lead the eye.
 */
import { useSignal } from '@preact/signals';
import { unitsOf } from '../../../server/measure/units.ts';
import { degreeUnit, shownDegrees } from '../../../server/wording/temperature.ts';
import { placeText } from '../../../server/wording/words.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { TextField } from '../../parts/field.tsx';
import { WithWhat } from './hand-sheet.tsx';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function TwinSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('twin reading', live, done);
  const { draft } = sheet;
  const units = unitsOf(live.joint);
  const unit = degreeUnit(units);
  const probe = live.joint.probes.find(({ id }) => id === draft.probe);
  const middle = useSignal(middleOf(live, draft.probe ?? ''));
  const value = draft.celsius ?? '';
  const hasInstrument = (draft.instrument ?? '') !== '';
  const step = units === 'inch' ? 2 : 1;
  const more = (
    <>
      <WithWhat sheet={sheet} live={live} without="crayon" />
      <div class="fields">
        <TextField
          label="It reads"
          kind="number"
          unit={unit}
          value={value}
          onValue={(typed) => sheet.set('celsius', typed)}
        />
      </div>
    </>
  );
  return (
    <SheetFrame
      title={`Read by hand beside ${draft.probe ?? 'the probe'}`}
      sheet={sheet}
      back={back}
      action={value === '' ? 'Touch what it reads' : `Record ${value} ${unit}`}
      {...(hasInstrument ? { later: { title: 'Another instrument, another value', content: more } } : {})}
    >
      <p>
        {probe?.place === undefined ? '' : `${probe.place.part}: ${placeText(probe.place, units)}. `}
        {hasInstrument
          ? `With ${draft.instrument}, ${draft.instrumentKind}.`
          : 'Say once what you read with; this device remembers it.'}
      </p>
      {!hasInstrument && <WithWhat sheet={sheet} live={live} without="crayon" />}
      <fieldset>
        <legend>It reads, in {unit}</legend>
        <div class="keys">
          <button type="button" class="plain" onClick={() => move(-1)}>
            lower
          </button>
          {Array.from({ length: 2 * keysEachSide + 1 }, (_, index) => middle.value + (index - keysEachSide) * step).map(
            (each) => (
              <button
                type="button"
                key={each}
                class={value === `${each}` ? 'key chosen' : 'key'}
                aria-pressed={value === `${each}`}
                onClick={() => sheet.set('celsius', `${each}`)}
              >
                {each}
              </button>
            ),
          )}
          <button type="button" class="plain" onClick={() => move(1)}>
            higher
          </button>
        </div>
        {sheet.problems.celsius !== undefined && <p class="problem">{sheet.problems.celsius}</p>}
      </fieldset>
    </SheetFrame>
  );

  function move(by: 1 | -1): void {
    middle.value += by * (2 * keysEachSide + 1) * step;
  }
}

const keysEachSide = 9;

/** A round number near what the probe read when the form was opened. */
const middleOf = (live: LiveJoint, probe: string): number => {
  const status = live.assessment.probes.find((each) => each.probe === probe);
  const units = unitsOf(live.joint);
  const round = units === 'inch' ? 10 : 5;
  const shown = status?.temperature === undefined ? 150 : shownDegrees(status.temperature, units);
  return Math.round(shown / round) * round;
};
