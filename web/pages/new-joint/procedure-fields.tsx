/** The qualified procedure and the code: what they state is judged; what they do not state stays empty and is not made up. */
import type { MethodAnswer } from '../../../server/metallurgy/answer.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { AfterFields } from './after-fields.tsx';
import { BreakFields } from './break-fields.tsx';
import { ChartFields } from './chart-fields.tsx';
import { CheckFields } from './check-fields.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';
import { PassFields } from './pass-fields.tsx';
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

export function ProcedureFields({
  entry,
  methods,
}: {
  readonly entry: Entry;
  readonly methods: readonly MethodAnswer[];
}) {
  const { procedure, codeFloor, bindingMethods } = entry.draft;
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
  const governors = [
    ...new Map(
      methods.filter((method) => method.role === 'may govern').map((method) => [method.id, method.title]),
    ).entries(),
  ];
  return (
    <fieldset class="group">
      <legend>Procedure and code</legend>
      <ChoiceField
        label="Welding procedure"
        value={procedure.bound ? 'bound' : 'none'}
        choices={[
          { value: 'bound', text: 'Bound to a procedure' },
          { value: 'none', text: 'None: the calculation governs' },
        ]}
        onValue={(value) => set({ bound: value === 'bound' })}
      />
      {procedure.bound && (
        <div class="fields">
          <TextField
            label="Procedure"
            field="procedure.id"
            value={procedure.id}
            problem={entry.problem('procedure.id')}
            onValue={(id) => {
              entry.touch('procedure.id');
              set({ id });
            }}
          />
          <TextField
            label="Revision"
            field="procedure.revision"
            value={procedure.revision}
            problem={entry.problem('procedure.revision')}
            onValue={(revision) => {
              entry.touch('procedure.revision');
              set({ revision });
            }}
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
      )}
      {procedure.bound && <BreakFields entry={entry} />}
      {procedure.bound && <CheckFields entry={entry} />}
      <label class="tick">
        <input
          type="checkbox"
          checked={codeFloor.stated}
          onChange={(event) => entry.change({ codeFloor: { ...codeFloor, stated: event.currentTarget.checked } })}
        />
        The code of construction sets a floor of its own
      </label>
      {codeFloor.stated && (
        <div class="fields">
          <NumberField
            entry={entry}
            label="Floor"
            kind="temperature"
            field="codeFloor.preheatMinimumCelsius"
            value={codeFloor.celsius}
            onValue={(celsius) => entry.change({ codeFloor: { ...codeFloor, celsius } })}
          />
          <TextField
            label="Where it stands"
            field="codeFloor.source"
            value={codeFloor.source}
            problem={entry.problem('codeFloor.source')}
            onValue={(source) => {
              entry.touch('codeFloor.source');
              entry.change({ codeFloor: { ...codeFloor, source } });
            }}
          />
        </div>
      )}
      {governors.map(([id, title]) => (
        <label class="tick" key={id}>
          <input
            type="checkbox"
            checked={bindingMethods.includes(id)}
            onChange={(event) =>
              entry.change({
                bindingMethods: event.currentTarget.checked
                  ? [...bindingMethods, id]
                  : bindingMethods.filter((each) => each !== id),
              })
            }
          />
          The job declares the calculation by {title} binding
        </label>
      ))}
      <ChartFields entry={entry} />
      {procedure.bound && <PassFields entry={entry} />}
      <AfterFields entry={entry} />
    </fieldset>
  );
}
