/**
 * The check of all probes before heating, step by step: what they read at rest beside the air, then each tip warmed or
 * cooled by hand in turn, and what that shows, and at the end what is recorded.
 */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { beginTouch, followTouch } from '../../../server/judgement/ambient/course.ts';
import { readNumber } from '../../../server/measure/number-text.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { fromFahrenheit, unitsOf } from '../../../server/measure/units.ts';
import type { AmbientTouch } from '../../../server/weld/ambient-check.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import { TextField } from '../../parts/field.tsx';
import { serverNow } from '../../state/station.ts';
import {
  again,
  atRest,
  beginGuide,
  checkAct,
  type Guide,
  leaveOut,
  nextProbe,
  outcomesOf,
  readGuide,
  readNow,
  touchSoFar,
  withTouch,
} from './ambient-guide.ts';
import { Found, Rest, Touching } from './ambient-steps.tsx';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function AmbientSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('ambient check', live, done);
  const units = unitsOf(live.joint);
  const probes = live.assessment.probes.map(({ probe }) => probe);
  const guide = readGuide(sheet.draft.progress ?? '', probes);
  const probe = guide === undefined ? undefined : nextProbe(guide);
  const touch = useSignal<AmbientTouch | undefined>(undefined);
  const way: AmbientTouch['way'] = sheet.draft.way === 'cooled' ? 'cooled' : 'warmed';
  const now = serverNow.value;
  const air = airOf(sheet.draft.air ?? '', units);

  const begin = (next: string | undefined, how: AmbientTouch['way'] = way): void => {
    const at = serverNow.peek();
    touch.value = next === undefined || at === undefined ? undefined : beginTouch(next, how, readNow(live, at), at);
  };
  const go = (next: Guide): void => {
    sheet.set('progress', JSON.stringify(next));
    begin(nextProbe(next));
  };
  // After a reload the touch that was under way begins anew.
  useEffect(() => {
    if (probe !== undefined && touch.peek()?.probe !== probe) begin(probe);
  }, [probe]);
  useEffect(() => {
    const at = serverNow.peek();
    if (touch.peek() !== undefined && at !== undefined) touch.value = followTouch(touch.peek()!, readNow(live, at), at);
  }, [live]);

  if (now === undefined) return <p class="notice">The station has not been heard yet.</p>;
  const frame = { title: 'Check the probes at ambient', sheet, back };

  if (guide === undefined) {
    const rest = atRest(live, now);
    const first = rest.find(({ celsius }) => celsius !== undefined)?.probe;
    return (
      <SheetFrame
        {...frame}
        action={first === undefined ? 'No probe reads' : `Begin with ${first}`}
        submit={() => {
          if (first === undefined) sheet.fail('No probe reads: look at the board, its cable and the plugs first.');
          else if (air === undefined) sheet.fail(`What does the air have? A number in ${degreeUnit(units)} is needed.`);
          else go(beginGuide(live, now));
        }}
      >
        <p>
          Before the heat goes on, while everything is as cold as the air. Crossed wires, changed places and a wrong
          type can be seen now and hardly later.
        </p>
        <div class="fields">
          <TextField label="The air has" kind="number" unit={degreeUnit(units)} {...sheet.entry('air')} />
          <TextField label="Read with" optional {...sheet.entry('readWith')} />
        </div>
        <Rest live={live} outcomes={outcomesOf({ rest, touches: [], leftOut: [] }, air ?? 0)} air={air} />
      </SheetFrame>
    );
  }

  if (probe === undefined || touch.value === undefined) {
    return (
      <SheetFrame
        {...frame}
        action="Record the check"
        submit={() => {
          if (air === undefined) sheet.fail('The temperature of the air is missing: begin anew.');
          else void sheet.send(checkAct(guide, air, (sheet.draft.readWith ?? '').trim()));
        }}
      >
        <Found
          outcomes={outcomesOf(guide, air ?? 0)}
          air={air}
          units={units}
          again={(each) => go(again(guide, each))}
          anew={() => sheet.set('progress', '')}
        />
      </SheetFrame>
    );
  }

  const so = touchSoFar(touch.value, guide);
  const following = nextProbe(withTouch(guide, touch.value));
  const onward = following === undefined ? 'see what was found' : `next: ${following}`;
  return (
    <SheetFrame
      {...frame}
      action={so.outcome === 'in order' ? `In order; ${onward}` : `Not in order, leave it so; ${onward}`}
      submit={() => go(withTouch(guide, touch.value!))}
    >
      <Touching
        live={live}
        guide={guide}
        touch={touch.value}
        so={so}
        setWay={(how) => {
          sheet.set('way', how);
          begin(probe, how);
        }}
        anew={() => begin(probe)}
        leaveOut={() => go(leaveOut(guide, probe))}
      />
    </SheetFrame>
  );
}

/** Degrees Celsius, of a number that an air may have. */
function airOf(text: string, units: ReturnType<typeof unitsOf>): number | undefined {
  const read = readNumber(text);
  if (read.kind !== 'number') return undefined;
  const celsius = units === 'inch' ? milliCelsius(fromFahrenheit(read.value)) / 1000 : read.value;
  return celsius >= -60 && celsius <= 70 ? celsius : undefined;
}
