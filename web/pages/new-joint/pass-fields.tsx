/** What the procedure asks of each pass. What it does not state is shown and not judged. */
import { SelectField, TextField } from '../../parts/field.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

const counts = [
  { value: '', text: 'No window stated: shown, not judged' },
  { value: 'heat input', text: 'Heat input: with the efficiency k of the process (EN 1011-1)' },
  { value: 'arc energy', text: 'Arc energy: without k, as ASME IX counts' },
];

/** Where a board tells that an arc burns. */
export function ArcSignalFields({ entry }: { readonly entry: Entry }) {
  const { arc } = entry.draft;
  return (
    <details open={arc.board !== '' || arc.input !== ''}>
      <summary>Arc signal</summary>
      <p class="hint">
        A current relay or the source itself closes an input of a board while the arc burns. The screen then proposes
        passes, and an arc without a pass is told. Leave it empty where none is wired.
      </p>
      <div class="fields">
        <TextField
          label="Board"
          field="arcSignal.board"
          optional
          value={arc.board}
          problem={entry.problem('arcSignal.board')}
          suggestions={[...new Set(entry.draft.probes.map(({ board }) => board))]}
          onValue={(board) => {
            entry.touch('arcSignal.board');
            entry.change({ arc: { ...arc, board } });
          }}
        />
        <NumberField
          entry={entry}
          label="Input"
          field="arcSignal.input"
          optional="if known"
          value={arc.input}
          onValue={(input) => entry.change({ arc: { ...arc, input } })}
        />
      </div>
    </details>
  );
}

const readings = [
  { value: '', text: 'At the start of each pass' },
  { value: 'minutes', text: 'Within the pass too, every so many minutes' },
  { value: 'revolution', text: 'Within the pass too, once each revolution' },
];

export function PassFields({ entry }: { readonly entry: Entry }) {
  const { passes } = entry.draft;
  const set = (part: Partial<JointDraft['passes']>): void => entry.change({ passes: { ...passes, ...part } });
  const path = 'procedure.heatInput';
  return (
    <details open={passes.counted !== '' || passes.every !== ''}>
      <summary>Heat input and interpass within passes</summary>
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
        <SelectField
          label="Interpass is read"
          value={passes.every}
          choices={readings}
          onValue={(every) => set({ every })}
        />
        {passes.every === 'minutes' && (
          <NumberField
            entry={entry}
            label="Every"
            field="procedure.interpassEvery.minutes"
            unit="min"
            value={passes.everyMinutes}
            onValue={(everyMinutes) => set({ everyMinutes })}
          />
        )}
      </div>
    </details>
  );
}
