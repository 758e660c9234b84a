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
        value={draft.use ?? 'interpass'}
        choices={[
          { value: 'interpass', text: 'Interpass' },
          { value: 'zone', text: 'Preheat zone' },
          { value: 'opposite face', text: 'Opposite face' },
        ]}
        onValue={(value) => sheet.set('use', value)}
      />
      <div class="fields">
        <SelectField
          label="Beside probe"
          value={draft.probe ?? ''}
          problem={sheet.problems.probe}
          choices={[{ value: '', text: 'none' }, ...beside.map(({ id }) => ({ value: id, text: id }))]}
          onValue={(value) => sheet.set('probe', value)}
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
          value={draft.instrumentKind ?? 'contact thermometer'}
          problem={sheet.problems.instrumentKind}
          choices={kinds.map((kind) => ({ value: kind as string, text: begun(handKindText(kind)) }))}
          onValue={(value) => sheet.set('instrumentKind', value)}
        />
      )}
      {draft.instrumentKind === 'pyrometer' && (
        <div class="fields">
          <TextField
            label="Emissivity set on it"
            kind="number"
            value={draft.emissivity ?? ''}
            problem={sheet.problems.emissivity}
            hint="Oxidised or rolled steel about 0.7 to 0.9; bright steel far lower, and then it reads too cold."
            onValue={(value) => sheet.set('emissivity', value)}
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
          value={draft.shows ?? ''}
          problem={sheet.problems.shows}
          choices={[
            { value: 'at least', text: 'Melted' },
            { value: 'below', text: 'Did not melt' },
          ]}
          onValue={(value) => sheet.set('shows', value)}
        />
      )}
      <div class="fields">
        <TextField
          label={isCrayon ? 'It is made for' : 'It reads'}
          kind="number"
          unit={degreeUnit(unitsOf(live.joint))}
          value={draft.celsius ?? ''}
          problem={sheet.problems.celsius}
          onValue={(value) => sheet.set('celsius', value)}
        />
      </div>
    </>
  );
}

function Where({ sheet, live }: { readonly sheet: Sheet; readonly live: LiveJoint }) {
  const { draft } = sheet;
  return (
    <>
      <SelectField
        label="Part"
        value={draft.part ?? ''}
        choices={live.joint.parts.map((part) => ({ value: part.id, text: part.id }))}
        onValue={(value) => sheet.set('part', value)}
      />
      <SelectField
        label="Side"
        value={draft.side ?? 'A'}
        choices={sides.map((side) => ({ value: side as string, text: side }))}
        onValue={(value) => sheet.set('side', value)}
      />
      <SelectField
        label="Face"
        value={draft.face ?? 'front'}
        choices={faces.map((face) => ({ value: face as string, text: face }))}
        onValue={(value) => sheet.set('face', value)}
      />
      <TextField
        label="From the groove"
        kind="number"
        unit={lengthUnit(unitsOf(live.joint))}
        value={draft.distance ?? ''}
        problem={sheet.problems.distance}
        onValue={(value) => sheet.set('distance', value)}
      />
    </>
  );
}

const handInstruments = ({ joint }: LiveJoint): Instrument[] =>
  (joint.instruments ?? []).filter(({ kind }) => isHandKind(kind));
