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

/** Which certificate the instrument has, and for how long it holds. */
function CertificateFields({ sheet }: Pick<FormProps, 'sheet'>) {
  return (
    <>
      <TextField label="Certificate" {...sheet.entry('certificate')} />
      <TextField label="Of" hint="A day, as 2026-03-31" {...sheet.entry('calibratedOn')} />
      <TextField label="Holds up to" hint="Last day; empty if none is stated" {...sheet.entry('dueOn')} />
    </>
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
        <CertificateFields sheet={sheet} />
      </div>
      {Array.from({ length: shown.value }, (_, index) => (
        <fieldset key={`point ${index}`}>
          <legend>Point {index + 1} of the certificate</legend>
          <div class="fields">
            <TextField label="At" kind="number" unit={degreeUnit(unitsOf(live.joint))} {...sheet.entry(`at${index}`)} />
            <TextField label="Added to the reading" kind="number" unit="K" {...sheet.entry(`correction${index}`)} />
            <TextField label="Uncertainty U" kind="number" unit="K" {...sheet.entry(`expanded${index}`)} />
            <TextField label="Factor k" kind="number" {...sheet.entry(`factor${index}`)} />
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
        choices={[
          { value: 'now', text: 'From now on' },
          { value: 'beginning', text: 'For all readings of this joint' },
        ]}
        {...sheet.entry('holds', 'now')}
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
        <TextField label="It read" kind="number" unit={unit} {...sheet.entry('readCelsius')} />
        <TextField label="Beside which instrument" {...sheet.entry('reference')} />
        <TextField label="Which read" kind="number" unit={unit} {...sheet.entry('referenceCelsius')} />
      </div>
      <ChoiceField
        label="It is"
        choices={[
          { value: 'within its limit', text: 'Within its limit' },
          { value: 'outside its limit', text: 'Outside its limit' },
        ]}
        {...sheet.entry('result', 'within its limit')}
      />
    </>
  );
}

function Adjustment({ sheet }: FormProps) {
  return (
    <>
      <p class="hint">It was changed itself: what a calibration found of it holds no longer, until the next one.</p>
      <TextArea label="What was changed" {...sheet.entry('what')} />
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
        <TextField label="Name" {...sheet.entry('id')} />
        <SelectField
          label="Kind"
          value={kind}
          choices={instrumentKinds.map((each) => ({ value: each as string, text: each }))}
          onValue={(value) => sheet.set('kind', value)}
        />
        {reads && <TextField label="Board" hint="The identity that the board states" {...sheet.entry('board')} />}
        {kind === 'module' && <TextField label="Channels" hint="As 1, 2, 3" {...sheet.entry('channels')} />}
        {isWire && (
          <SelectField
            label="Type"
            choices={['', ...thermocoupleTypes].map((each) => ({ value: each as string, text: each }))}
            {...sheet.entry('thermocouple')}
          />
        )}
        {isWire && (
          <SelectField
            label="Class"
            choices={[
              { value: '', text: 'not known' },
              ...classes.map((each) => ({ value: each as string, text: each })),
            ]}
            {...sheet.entry('toleranceClass')}
          />
        )}
        {!isWire && (
          <TextField
            label="Largest error, plus or minus"
            kind="number"
            unit="K"
            {...sheet.entry('maximumErrorKelvin')}
          />
        )}
        {reads && (
          <TextField label="Of its cold junction" kind="number" unit="K" {...sheet.entry('coldJunctionErrorKelvin')} />
        )}
        <CertificateFields sheet={sheet} />
      </div>
      <TextArea label="Why it is entered or changed" {...sheet.entry('reason')} />
      <p class="hint">This revises the joint. Points of a certificate are entered with Calibration.</p>
    </>
  );
}
