/** What the procedure asks of each pass. What it does not state is shown and not judged. */
import { SelectField } from '../../parts/field.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

const counts = [
  { value: '', text: 'No window stated: shown, not judged' },
  { value: 'heat input', text: 'Heat input: with the efficiency k of the process (EN 1011-1)' },
  { value: 'arc energy', text: 'Arc energy: without k, as ASME IX counts' },
];

export function PassFields({ entry }: { readonly entry: Entry }) {
  const { passes } = entry.draft;
  const set = (part: Partial<JointDraft['passes']>): void => entry.change({ passes: { ...passes, ...part } });
  const path = 'procedure.heatInput';
  return (
    <details open={passes.counted !== ''}>
      <summary>Heat input of each pass</summary>
      <div class="fields">
        <SelectField
          label="The window counts"
          field={`${path}.counted`}
          value={passes.counted}
          problem={entry.problem(`${path}.counted`)}
          choices={counts}
          onValue={(counted) => {
            entry.touch(`${path}.counted`);
            set({ counted });
          }}
        />
        <NumberField
          entry={entry}
          label="At least"
          field={`${path}.minimumKilojoulesPerMillimetre`}
          kind="heat input"
          optional="if stated"
          value={passes.least}
          onValue={(least) => set({ least })}
        />
        <NumberField
          entry={entry}
          label="At most"
          field={`${path}.maximumKilojoulesPerMillimetre`}
          kind="heat input"
          optional="if stated"
          value={passes.most}
          onValue={(most) => set({ most })}
        />
      </div>
    </details>
  );
}
