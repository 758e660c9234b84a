/** What a procedure states of its own: one form for the joint that it is typed into and for the store of procedures. */
import { SelectField, TextField } from '../../parts/field.tsx';
import { BreakFields } from './break-fields.tsx';
import { CheckFields } from './check-fields.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';
import { PassFields } from './pass-fields.tsx';
import { QualificationFields } from './qualification-fields.tsx';
import type { QuantityKind } from './quantity.ts';

const decisionRules = [
  { value: 'simple acceptance', text: 'Simple acceptance: the reading against the limit' },
  { value: 'guarded', text: 'Guarded: beyond the limit by the guard band' },
];
const calibrations = [
  { value: '', text: 'Not stated: gaps are remarked' },
  { value: 'remarked', text: 'Gaps are remarked' },
  { value: 'required', text: 'Required before the arc' },
];

const ambientChecks = [
  { value: '', text: 'Not stated: a missing check is remarked' },
  { value: 'remarked', text: 'A missing check is remarked' },
  { value: 'required', text: 'Required before the arc' },
  { value: 'not asked', text: 'Not asked' },
];

const temperature = { kind: 'temperature' } as const;

export function ProcedureValues({ entry }: { readonly entry: Entry }) {
  const { procedure } = entry.draft;
  const set = (part: Partial<JointDraft['procedure']>): void => entry.change({ procedure: { ...procedure, ...part } });
  const number = (
    label: string,
    field: string,
    key: Exclude<keyof JointDraft['procedure'], 'bound' | 'document'>,
    of: { readonly kind: QuantityKind } | { readonly unit: string },
    hint?: string,
  ) => (
    <NumberField
      entry={entry}
      label={label}
      field={`procedure.${field}`}
      optional="if stated"
      value={procedure[key]}
      {...of}
      {...(hint === undefined ? {} : { hint })}
      onValue={(value) => set({ [key]: value })}
    />
  );
  return (
    <>
      <div class="fields">
        <TextField
          label="What it is for"
          field="procedure.title"
          optional="if stated"
          value={procedure.title}
          problem={entry.problem('procedure.title')}
          onValue={(title) => set({ title })}
        />
        <TextField
          label="Written to"
          field="procedure.codeEdition"
          optional="if stated"
          hint="The code and its edition."
          value={procedure.codeEdition}
          problem={entry.problem('procedure.codeEdition')}
          onValue={(codeEdition) => set({ codeEdition })}
        />
        {number('Minimum preheat', 'preheatMinimumCelsius', 'minimum', temperature)}
        {number('Maximum interpass', 'interpassMaximumCelsius', 'interpass', temperature)}
        {number('Lowest in a break', 'maintenanceMinimumCelsius', 'maintenance', temperature)}
        {number('Highest anywhere', 'highestCelsius', 'highest', temperature)}
        {number(
          'Spread, at most',
          'evennessMaximumKelvin',
          'evenness',
          { kind: 'difference' },
          'Between the zone probes of one face.',
        )}
        {number('Hold before the arc', 'soakHoldMinutes', 'hold', { unit: 'min' }, 'Where the heaters stay on.')}
        {number(
          'Hold all through the thickness',
          'throughThicknessHoldMinutes',
          'throughHold',
          { unit: 'min' },
          'With the coldest point inside each part at the minimum, by heat conduction.',
        )}
        {number(
          'Zone places',
          'zonePlacesRequired',
          'places',
          { unit: 'places' },
          'That must be at the minimum; empty: every one.',
        )}
        <SelectField
          label="Decision rule"
          value={procedure.decisionRule}
          choices={decisionRules}
          onValue={(decisionRule) => set({ decisionRule })}
        />
        {procedure.decisionRule === 'guarded' && (
          <NumberField
            entry={entry}
            label="Guard band"
            field="procedure.guardFactor"
            unit="× u"
            value={procedure.guardFactor}
            hint="In standard uncertainties u of the reading: 1.645 for 95 % to one side, 2 for k = 2."
            onValue={(guardFactor) => set({ guardFactor })}
          />
        )}
        <SelectField
          label="Calibration"
          value={procedure.calibration}
          choices={calibrations}
          onValue={(calibration) => set({ calibration })}
        />
        {number(
          'Reading by hand beside a probe, every',
          'twinReadingHours',
          'twinHours',
          { unit: 'h' },
          'Asked for while the part is warm. Empty: once in 8 h. 0: never.',
        )}
        <SelectField
          label="Check of the probes at ambient"
          value={procedure.ambientCheck}
          choices={ambientChecks}
          onValue={(ambientCheck) => set({ ambientCheck })}
        />
      </div>
      <BreakFields entry={entry} />
      <CheckFields entry={entry} />
      <PassFields entry={entry} />
      <QualificationFields entry={entry} />
    </>
  );
}
