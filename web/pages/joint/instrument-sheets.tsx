/** The forms of the register: what a calibration found, whether a limit is kept, what was changed in an instrument, and the instrument itself. */
import { useSignal } from '@preact/signals';
import { thermocoupleTypes } from '../../../server/measure/thermocouple.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { type Instrument, instrumentKinds, toleranceClasses } from '../../../server/weld/instrument.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, SelectField, TextArea, TextField } from '../../parts/field.tsx';
import { serverNow } from '../../state/station.ts';
import type { Draft, InstrumentSheetKind } from './act-draft.ts';
import { instrumentActOf, instrumentDraft, pointsMost } from './instrument-draft.ts';
import { SheetFrame } from './sheet-frame.tsx';
import { type Sheet, useSheet } from './use-sheet.ts';

interface Props {
  readonly live: LiveJoint;
  readonly kind: InstrumentSheetKind;
  /** Absent where one is entered. */
  readonly instrument: Instrument | undefined;
  readonly openedAt: number;
  readonly done: (act: Act) => void;
  readonly back: () => void;
}

export function InstrumentSheet({ live, kind, instrument, openedAt, done, back }: Props) {
  const name = instrument?.id ?? '';
  const sheet = useSheet(kind, live, done, { of: name, draft: begun(kind, instrument, openedAt) });
  const submit = (): void => {
    const now = serverNow.peek();
    if (now === undefined) {
      sheet.fail('Not sent: the station has not been heard yet.');
      return;
    }
    const made = instrumentActOf(kind, sheet.draft, live.joint, now);
    if (made.ok) void sheet.send(made.act);
    else sheet.tell(made.problems);
  };
  const forms = { calibration: Calibration, verification: Verification, adjustment: Adjustment, instrument: Itself };
  const Form = forms[kind];
  return (
    <SheetFrame title={titles[kind](name)} sheet={sheet} back={back} action={actions[kind]} submit={submit}>
      <Form sheet={sheet} live={live} />
    </SheetFrame>
  );
}

const titles: Readonly<Record<InstrumentSheetKind, (name: string) => string>> = {
  calibration: (name) => `Calibration of ${name}`,
  verification: (name) => `Verification of ${name}`,
  adjustment: (name) => `Adjustment of ${name}`,
  instrument: (name) => (name === '' ? 'Enter an instrument' : `Change ${name}`),
};
const actions: Readonly<Record<InstrumentSheetKind, string>> = {
  calibration: 'Record the calibration',
  verification: 'Record the verification',
  adjustment: 'Record the adjustment',
  instrument: 'Record the instrument',
};

const begun = (kind: InstrumentSheetKind, instrument: Instrument | undefined, openedAt: number): Draft =>
  kind === 'instrument'
    ? { ...instrumentDraft(instrument), before: instrument?.id ?? '' }
    : {
        instrument: instrument?.id ?? '',
        openedAt: String(openedAt),
        holds: 'now',
        result: 'within its limit',
        factor0: '2',
      };

interface FormProps {
  readonly sheet: Sheet;
  readonly live: LiveJoint;
}

function Entry({
  sheet,
  field,
  label,
  number,
  unit,
  hint,
}: {
  readonly sheet: Sheet;
  readonly field: string;
  readonly label: string;
  readonly number?: boolean;
  readonly unit?: string;
  readonly hint?: string;
}) {
  return (
    <TextField
      label={label}
      value={sheet.draft[field] ?? ''}
      problem={sheet.problems[field]}
      onValue={(value) => sheet.set(field, value)}
      {...(number === true ? { kind: 'number' as const } : {})}
      {...(unit === undefined ? {} : { unit })}
      {...(hint === undefined ? {} : { hint })}
    />
  );
}

function Calibration({ sheet, live }: FormProps) {
  const filled = Array.from({ length: pointsMost }, (_, index) => index).filter(
    (index) => (sheet.draft[`at${index}`] ?? '') !== '',
  );
  const shown = useSignal(Math.max(1, (filled.at(-1) ?? 0) + 1));
  return (
    <>
      <p class="hint">
        How far it is off, and how sure that is. What was known of it before holds no longer from that time on.
      </p>
      <div class="fields">
        <Entry sheet={sheet} field="certificate" label="Certificate" />
        <Entry sheet={sheet} field="calibratedOn" label="Of" hint="A day, as 2026-03-31" />
        <Entry sheet={sheet} field="dueOn" label="Holds up to" hint="Last day; empty if none is stated" />
      </div>
      {Array.from({ length: shown.value }, (_, index) => (
        <fieldset key={`point ${index}`}>
          <legend>Point {index + 1} of the certificate</legend>
          <div class="fields">
            <Entry sheet={sheet} field={`at${index}`} label="At" number unit={degreeUnit(unitsOf(live.joint))} />
            <Entry sheet={sheet} field={`correction${index}`} label="Added to the reading" number unit="K" />
            <Entry sheet={sheet} field={`expanded${index}`} label="Uncertainty U" number unit="K" />
            <Entry sheet={sheet} field={`factor${index}`} label="Factor k" number />
          </div>
        </fieldset>
      ))}
      {shown.value < pointsMost && (
        <button
          type="button"
          class="plain"
          onClick={() => {
            sheet.set(`factor${shown.value}`, '2');
            shown.value += 1;
          }}
        >
          Another point
        </button>
      )}
      <ChoiceField
        label="It holds"
        value={sheet.draft.holds ?? 'now'}
        choices={[
          { value: 'now', text: 'From now on' },
          { value: 'beginning', text: 'For all readings of this joint' },
        ]}
        onValue={(value) => sheet.set('holds', value)}
      />
    </>
  );
}

function Verification({ sheet, live }: FormProps) {
  const unit = degreeUnit(unitsOf(live.joint));
  return (
    <>
      <p class="hint">Whether it keeps its limit, beside another instrument. It changes nothing in it.</p>
      <div class="fields">
        <Entry sheet={sheet} field="readCelsius" label="It read" number unit={unit} />
        <Entry sheet={sheet} field="reference" label="Beside which instrument" />
        <Entry sheet={sheet} field="referenceCelsius" label="Which read" number unit={unit} />
      </div>
      <ChoiceField
        label="It is"
        value={sheet.draft.result ?? 'within its limit'}
        choices={[
          { value: 'within its limit', text: 'Within its limit' },
          { value: 'outside its limit', text: 'Outside its limit' },
        ]}
        onValue={(value) => sheet.set('result', value)}
      />
    </>
  );
}

function Adjustment({ sheet }: FormProps) {
  return (
    <>
      <p class="hint">It was changed itself: what a calibration found of it holds no longer, until the next one.</p>
      <TextArea
        label="What was changed"
        value={sheet.draft.what ?? ''}
        problem={sheet.problems.what}
        onValue={(value) => sheet.set('what', value)}
      />
    </>
  );
}

function Itself({ sheet }: FormProps) {
  const { draft } = sheet;
  const kind = draft.kind ?? '';
  const isWire = kind === 'wire lot' || kind === 'thermocouple' || kind === 'extension cable';
  const reads = kind === 'board' || kind === 'module';
  const classes = toleranceClasses.filter((each) => each.startsWith('IEC 60584-3') === (kind === 'extension cable'));
  return (
    <>
      <div class="fields">
        <Entry sheet={sheet} field="id" label="Name" />
        <SelectField
          label="Kind"
          value={kind}
          choices={instrumentKinds.map((each) => ({ value: each as string, text: each }))}
          onValue={(value) => sheet.set('kind', value)}
        />
        {reads && <Entry sheet={sheet} field="board" label="Board" hint="The identity that the board states" />}
        {kind === 'module' && <Entry sheet={sheet} field="channels" label="Channels" hint="As 1, 2, 3" />}
        {isWire && (
          <SelectField
            label="Type"
            value={draft.thermocouple ?? ''}
            problem={sheet.problems.thermocouple}
            choices={['', ...thermocoupleTypes].map((each) => ({ value: each as string, text: each }))}
            onValue={(value) => sheet.set('thermocouple', value)}
          />
        )}
        {isWire && (
          <SelectField
            label="Class"
            value={draft.toleranceClass ?? ''}
            problem={sheet.problems.toleranceClass}
            choices={[
              { value: '', text: 'not known' },
              ...classes.map((each) => ({ value: each as string, text: each })),
            ]}
            onValue={(value) => sheet.set('toleranceClass', value)}
          />
        )}
        {!isWire && (
          <Entry sheet={sheet} field="maximumErrorKelvin" label="Largest error, plus or minus" number unit="K" />
        )}
        {reads && <Entry sheet={sheet} field="coldJunctionErrorKelvin" label="Of its cold junction" number unit="K" />}
        <Entry sheet={sheet} field="certificate" label="Certificate" />
        <Entry sheet={sheet} field="calibratedOn" label="Of" hint="A day, as 2026-03-31" />
        <Entry sheet={sheet} field="dueOn" label="Holds up to" hint="Last day; empty if none is stated" />
      </div>
      <TextArea
        label="Why it is entered or changed"
        value={draft.reason ?? ''}
        problem={sheet.problems.reason}
        onValue={(value) => sheet.set('reason', value)}
      />
      <p class="hint">This revises the joint. Points of a certificate are entered with Calibration.</p>
    </>
  );
}
