/** Entries of a pass that its forms share: what it is welded with, and the numbers of its arc. */

import { joulesPerMetre } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import { passEnergy } from '../../../server/metallurgy/heat-input.ts';
import type { PassDetails } from '../../../server/weld/pass-acts.ts';
import { sides } from '../../../server/weld/probe.ts';
import { processes } from '../../../server/weld/welding.ts';
import { countedText, detailTexts, energyText, windowText } from '../../../server/wording/pass.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { unitOf } from '../new-joint/quantity.ts';
import { detailsIn, draftOfDetails, passBefore } from './pass-draft.ts';
import type { Sheet } from './use-sheet.ts';

interface Props {
  readonly sheet: Sheet;
  readonly live: LiveJoint;
  /** The pass that the form is of; absent where it is yet to begin. */
  readonly pass: string | undefined;
}

const setUp = ['layer', 'batch', 'process', 'revolutionSeconds'] as const;
const numbers = [
  'volts',
  'amperes',
  'millimetresPerSecond',
  'runOutMillimetres',
  'arcSeconds',
  'instantaneousJoules',
] as const;

export function SetUpFields({ sheet, live, pass }: Props) {
  return (
    <>
      <AsBefore sheet={sheet} live={live} pass={pass} fields={setUp} />
      <div class="fields">
        <TextField label="Layer" optional {...sheet.entry('layer')} />
        <TextField label="Consumable and batch" optional {...sheet.entry('batch')} />
        <SelectField
          label="Process"
          choices={[
            { value: '', text: `${live.joint.process}, as the joint` },
            ...processes
              .filter((each) => each !== live.joint.process)
              .map((each) => ({ value: each as string, text: each })),
          ]}
          {...sheet.entry('process')}
        />
        {live.joint.procedure?.interpassEvery === 'revolution' && (
          <TextField
            label="Time of one revolution"
            kind="number"
            unit="s"
            hint="The procedure asks for an interpass reading each revolution."
            {...sheet.entry('revolution')}
          />
        )}
      </div>
    </>
  );
}

export function PlaceFields({ sheet }: { readonly sheet: Sheet }) {
  return (
    <>
      <ChoiceField
        label="Side"
        choices={[...sides.map((side) => ({ value: side as string, text: side })), { value: '', text: 'Not stated' }]}
        {...sheet.entry('side')}
      />
      <TextField label="Where" optional {...sheet.entry('where')} />
    </>
  );
}

export function ArcFields({ sheet, live, pass }: Props) {
  const { draft } = sheet;
  const units = unitsOf(live.joint);
  const number = (field: string, label: string, unit: string) => (
    <TextField label={label} kind="number" unit={unit} optional {...sheet.entry(field)} />
  );
  return (
    <>
      <AsBefore sheet={sheet} live={live} pass={pass} fields={numbers} />
      <div class="fields">
        {number('volts', 'Volts', 'V')}
        {number('amperes', 'Amperes', 'A')}
      </div>
      <ChoiceField
        label="Travel"
        choices={[
          { value: 'speed', text: 'Speed' },
          { value: 'length', text: 'Length and arc time' },
        ]}
        {...sheet.entry('travel', 'speed')}
      />
      <div class="fields">
        {draft.travel === 'length' ? (
          <>
            {number('length', 'Length of the run', unitOf('length', units))}
            {number('arcSeconds', 'Time of arc', 's')}
          </>
        ) : (
          number('speed', 'Travel speed', unitOf('speed', units))
        )}
      </div>
      <Energy sheet={sheet} live={live} pass={pass} units={units} />
    </>
  );
}

export function MoreRunFields({ sheet }: { readonly sheet: Sheet }) {
  return (
    <div class="fields">
      <TextField label="Stopped and taken up again at" optional {...sheet.entry('stops')} />
      <TextField
        label="Energy that the source shows"
        kind="number"
        unit="J"
        optional
        hint="Waveform-controlled sources: for the whole run, with its length."
        {...sheet.entry('joules')}
      />
    </div>
  );
}

/** What an earlier pass was welded with, taken over by one press and in sight before it is recorded. */
function AsBefore({ sheet, live, pass, fields }: Props & { readonly fields: readonly (keyof PassDetails)[] }) {
  const units = unitsOf(live.joint);
  const before = passBefore(live.assessment.passes, pass, fields);
  if (before === undefined) return null;
  const take = (): void => {
    for (const [field, value] of Object.entries(draftOfDetails(before.details, units))) sheet.set(field, value);
  };
  return (
    <button type="button" class="as-before" onClick={take}>
      Same as pass {before.pass}
      <span class="under">{detailTexts(before.details, units).join(', ')}</span>
    </button>
  );
}

/** What the numbers come to, before they are recorded. */
function Energy({ sheet, live, pass, units }: Props & { readonly units: UnitSystem }) {
  const window = live.joint.procedure?.heatInput;
  const known = live.assessment.passes.find((each) => each.pass === pass);
  const counted = window?.counted ?? 'heat input';
  const details = { ...known?.details, ...detailsIn(sheet.draft, units, { problem: () => {} }) };
  const energy = passEnergy(details, details.process ?? live.joint.process, counted);
  const asked = window === undefined ? '' : ` Window of the procedure: ${windowText(window, units)}.`;
  return (
    <p class="hint" role="status">
      {energy.known
        ? `${countedText(counted)} ${energyText(joulesPerMetre(energy.kilojoulesPerMillimetre), units)}.${asked}`
        : `What is not at hand now can be entered later.${asked}`}
    </p>
  );
}
