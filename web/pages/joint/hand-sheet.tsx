/** The form of a reading by hand: what it was read with, what that shows, and where. */

import { unitsOf } from '../../../server/measure/units.ts';
import { handKinds, type Instrument, isHandKind } from '../../../server/weld/instrument.ts';
import { faces, sides } from '../../../server/weld/probe.ts';
import { handKindText } from '../../../server/wording/instrument.ts';
import { lengthUnit } from '../../../server/wording/length.ts';
import { begun } from '../../../server/wording/list.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { Ago, SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { type Sheet, useSheet } from './use-sheet.ts';

export function ContactSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('contact reading', live, done);
  const { draft } = sheet;
  const beside = live.joint.probes.filter(({ place }) => place !== undefined);
  return (
    <SheetFrame
      title="Contact reading by hand"
      sheet={sheet}
      back={back}
      action="Record the reading"
      later={{ title: 'It was read earlier', content: <Ago sheet={sheet} what="It was read" /> }}
    >
      <WithWhat sheet={sheet} live={live} />
      <Shown sheet={sheet} live={live} />
      <ChoiceField
        label="It stands for"
        choices={[
          { value: 'interpass', text: 'Interpass' },
          { value: 'zone', text: 'Preheat zone' },
          { value: 'opposite face', text: 'Opposite face' },
        ]}
        {...sheet.entry('use', 'interpass')}
      />
      <div class="fields">
        <SelectField
          label="Beside probe"
          choices={[{ value: '', text: 'none' }, ...beside.map(({ id }) => ({ value: id, text: id }))]}
          {...sheet.entry('probe')}
        />
        {(draft.probe ?? '') === '' && <Where sheet={sheet} live={live} />}
      </div>
      <p class="hint">
        It counts for 60 s: for interpass, read it right before the arc. Beside a probe it is also compared with the
        probe, and stands in for it while the probe is not trusted.
      </p>
    </SheetFrame>
  );
}

/** Which instrument; one of the register brings its kind along. */
export function WithWhat({
  sheet,
  live,
  without,
}: {
  readonly sheet: Sheet;
  readonly live: LiveJoint;
  /** A kind that shows no value to compare. */
  readonly without?: 'crayon';
}) {
  const { draft } = sheet;
  const known = handInstruments(live).filter(({ kind }) => kind !== without);
  const kinds = handKinds.filter((kind) => kind !== without);
  const registered = known.find(({ id }) => id === (draft.instrument ?? '').trim());
  return (
    <>
      {known.length > 0 && (
        <ChoiceField
          label="Read with"
          value={draft.instrument ?? ''}
          choices={known.map(({ id, kind }) => ({ value: id, text: `${id}, ${kind}` }))}
          onValue={(value) => {
            sheet.set('instrument', value);
            sheet.set('instrumentKind', known.find(({ id }) => id === value)!.kind);
          }}
        />
      )}
      <div class="fields">
        <TextField
          label={known.length > 0 ? 'or another instrument' : 'Instrument'}
          value={registered === undefined ? (draft.instrument ?? '') : ''}
          problem={sheet.problems.instrument}
          onValue={(value) => sheet.set('instrument', value)}
        />
      </div>
      {registered === undefined && (
        <ChoiceField
          label="Its kind, with the code of ISO 13916"
          choices={kinds.map((kind) => ({ value: kind as string, text: begun(handKindText(kind)) }))}
          {...sheet.entry('instrumentKind', 'contact thermometer')}
        />
      )}
      {draft.instrumentKind === 'pyrometer' && (
        <div class="fields">
          <TextField
            label="Emissivity set on it"
            kind="number"
            hint="Oxidised or rolled steel about 0.7 to 0.9; bright steel far lower, and then it reads too cold."
            {...sheet.entry('emissivity')}
          />
        </div>
      )}
    </>
  );
}

/** A value; of a crayon whether it melted. */
function Shown({ sheet, live }: { readonly sheet: Sheet; readonly live: LiveJoint }) {
  const { draft } = sheet;
  const isCrayon = draft.instrumentKind === 'crayon';
  return (
    <>
      {isCrayon && (
        <ChoiceField
          label="The crayon"
          choices={[
            { value: 'at least', text: 'Melted' },
            { value: 'below', text: 'Did not melt' },
          ]}
          {...sheet.entry('shows')}
        />
      )}
      <div class="fields">
        <TextField
          label={isCrayon ? 'It is made for' : 'It reads'}
          kind="number"
          unit={degreeUnit(unitsOf(live.joint))}
          {...sheet.entry('celsius')}
        />
      </div>
    </>
  );
}

function Where({ sheet, live }: { readonly sheet: Sheet; readonly live: LiveJoint }) {
  return (
    <>
      <SelectField
        label="Part"
        choices={live.joint.parts.map((part) => ({ value: part.id, text: part.id }))}
        {...sheet.entry('part')}
      />
      <SelectField
        label="Side"
        choices={sides.map((side) => ({ value: side as string, text: side }))}
        {...sheet.entry('side', 'A')}
      />
      <SelectField
        label="Face"
        choices={faces.map((face) => ({ value: face as string, text: face }))}
        {...sheet.entry('face', 'front')}
      />
      <TextField
        label="From the groove"
        kind="number"
        unit={lengthUnit(unitsOf(live.joint))}
        {...sheet.entry('distance')}
      />
    </>
  );
}

const handInstruments = ({ joint }: LiveJoint): Instrument[] =>
  (joint.instruments ?? []).filter(({ kind }) => isHandKind(kind));
