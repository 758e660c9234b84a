/** The test piece that qualifies the procedure. What is typed here is compared with its limits at once, and with every pass later. */
import { comparedWithTest } from '../../../server/metallurgy/qualified-range.ts';
import { qualificationStandards } from '../../../server/weld/procedure-qualification.ts';
import { comparedText, qualifiedCaution } from '../../../server/wording/qualified.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { More } from '../../parts/more.tsx';
import { revisionCandidateOf } from './candidate.ts';
import type { QualificationDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

type Text = Exclude<keyof QualificationDraft, 'stated' | 'postHeating'>;

export function QualificationFields({ entry }: { readonly entry: Entry }) {
  const { qualification: typed } = entry.draft;
  const set = (part: Partial<QualificationDraft>): void => entry.change({ qualification: { ...typed, ...part } });
  const at = (field: string): string => `procedure.qualification.${field}`;
  const text = (label: string, field: string, name: Text, needed = false) => (
    <TextField
      label={label}
      field={at(field)}
      optional={needed ? false : 'if stated'}
      value={typed[name]}
      problem={entry.problem(at(field))}
      onValue={(value) => {
        entry.touch(at(field));
        set({ [name]: value });
      }}
    />
  );
  const number = (label: string, field: string, name: Text, kind: 'temperature' | 'heat input', hint?: string) => (
    <NumberField
      entry={entry}
      label={label}
      field={at(field)}
      kind={kind}
      optional="if known"
      {...(hint === undefined ? {} : { hint })}
      value={typed[name]}
      onValue={(value) => set({ [name]: value })}
    />
  );
  return (
    <More title="Qualification" about="the test piece, and how far production may depart from it" filled={typed.stated}>
      <label class="tick">
        <input
          type="checkbox"
          checked={typed.stated}
          onChange={(event) => set({ stated: event.currentTarget.checked })}
        />
        A qualification record stands behind this procedure
      </label>
      {typed.stated && (
        <>
          <div class="fields">
            {text('Number of the record', 'record', 'record', true)}
            <SelectField
              label="Qualified by"
              field={at('standard')}
              value={typed.standard}
              choices={qualificationStandards.map((value) => ({ value: value as string, text: value }))}
              onValue={(standard) => set({ standard })}
            />
            {text('Edition', 'edition', 'edition')}
            {number('Test piece, lowest preheat', 'preheatCelsius', 'preheat', 'temperature')}
            {number('Test piece, highest interpass', 'interpassCelsius', 'interpass', 'temperature')}
            {typed.standard === 'ASME IX' && (
              <>
                <SelectField
                  label="Impact tests"
                  field={at('impactTests')}
                  hint="Interpass is bound to the test piece only where the job requires them."
                  value={typed.impactTests}
                  choices={[
                    { value: '', text: 'Not stated: interpass stays open' },
                    { value: 'required', text: 'Required' },
                    { value: 'not required', text: 'Not required' },
                  ]}
                  onValue={(impactTests) => set({ impactTests })}
                />
                {number(
                  'Test piece, kept until heat treatment at',
                  'maintenanceCelsius',
                  'maintenance',
                  'temperature',
                  'Empty where it was not kept warm.',
                )}
                <SelectField
                  label="Test piece, post-heating"
                  value={typed.postHeating}
                  choices={[
                    { value: 'not known', text: 'Not stated' },
                    { value: 'none', text: 'None' },
                    { value: 'made', text: 'Post-heated' },
                  ]}
                  onValue={(postHeating) => set({ postHeating })}
                />
              </>
            )}
            {typed.standard === 'ISO 15614-1:2017' && (
              <SelectField
                label="Rise of interpass for this material group"
                field={at('interpassRise')}
                hint="Of some groups the tested maximum stays: see your copy of the standard."
                value={typed.interpassRise}
                choices={[
                  { value: '', text: 'Not stated: above the test piece stays open' },
                  { value: 'allowed', text: 'Allowed' },
                  { value: 'not allowed', text: 'Not allowed' },
                ]}
                onValue={(interpassRise) => set({ interpassRise })}
              />
            )}
            {typed.postHeating === 'made' && (
              <>
                {number('Post-heated at', 'postHeating.celsius', 'postHeatingAt', 'temperature')}
                <NumberField
                  entry={entry}
                  label="Post-heated for"
                  field={at('postHeating.hours')}
                  unit="h"
                  value={typed.postHeatingHours}
                  onValue={(postHeatingHours) => set({ postHeatingHours })}
                />
              </>
            )}
            <SelectField
              label="Qualified heat input"
              field={at('heatInput')}
              value={typed.counted}
              problem={entry.problem(at('heatInput'))}
              choices={[
                { value: '', text: 'No range stated' },
                { value: 'arc energy', text: 'As arc energy, without k' },
                { value: 'heat input', text: 'As heat input, k included' },
              ]}
              onValue={(counted) => set({ counted })}
            />
            {typed.counted !== '' && (
              <>
                {number('At least', 'heatInput.minimumKilojoulesPerMillimetre', 'leastHeatInput', 'heat input')}
                {number('At most', 'heatInput.maximumKilojoulesPerMillimetre', 'mostHeatInput', 'heat input')}
              </>
            )}
          </div>
          <Standing entry={entry} />
        </>
      )}
    </More>
  );
}

/** As soon as the procedure can be read at all. */
function Standing({ entry }: { readonly entry: Entry }) {
  const candidate = revisionCandidateOf(entry.draft);
  if (!candidate.ok) return null;
  const list = comparedWithTest(candidate.revision).map((each) =>
    comparedText(each, entry.draft.units === 'inch' ? 'inch' : 'metric'),
  );
  if (list.length === 0) return null;
  return (
    <>
      <QualifiedList list={list} />
      <p class="hint">{qualifiedCaution}</p>
    </>
  );
}

/** Where each value stands against the test piece. */
export function QualifiedList({ list }: { readonly list: readonly ReturnType<typeof comparedText>[] }) {
  return (
    <ul class="plain-list qualified">
      {list.map(({ name, standing, what, source }) => (
        <li key={name} class={standing}>
          <strong>{name}.</strong> {what}. <span class="aside">{source}</span>
        </li>
      ))}
    </ul>
  );
}
