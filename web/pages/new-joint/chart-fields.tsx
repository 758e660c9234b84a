/** What a person read off a published chart that no formula gives: which chart, with what, and what it said. */
import { SelectField, TextField } from '../../parts/field.tsx';
import { More } from '../../parts/more.tsx';
import type { ChartReadingDraft } from './draft.ts';
import { emptyReading } from './empty-draft.ts';
import { type Entry, replaced, without } from './entry.tsx';
import { NumberField } from './number-field.tsx';

/** As many as a joint may hold (server/weld/joint.ts). */
const readingsMost = 10;

export function ChartFields({ entry }: { readonly entry: Entry }) {
  const { chartReadings } = entry.draft;
  const put = (readings: readonly ChartReadingDraft[]): void => entry.change({ chartReadings: readings });
  return (
    <More title="Readings from charts" about="EN 1011-2 method A and others" filled={chartReadings.length > 0}>
      {chartReadings.length === 0 && (
        <p class="empty">
          Method A of EN 1011-2 and some other methods are charts, without a formula. What you read there can stand
          here, with the chart it came from; it carries your reading, not a calculation.
        </p>
      )}
      {chartReadings.map((reading, index) => (
        // The place is the key: a reading has no identity but its place in the list
        <OneReading
          key={index}
          entry={entry}
          reading={reading}
          path={`chartReadings.${index}`}
          set={(part) => put(replaced(chartReadings, index, part))}
          remove={() => put(without(chartReadings, index))}
        />
      ))}
      {chartReadings.length < readingsMost && (
        <button type="button" class="plain" onClick={() => put([...chartReadings, emptyReading])}>
          Add a reading
        </button>
      )}
    </More>
  );
}

interface OneProps {
  readonly entry: Entry;
  readonly reading: ChartReadingDraft;
  readonly path: string;
  readonly set: (part: Partial<ChartReadingDraft>) => void;
  readonly remove: () => void;
}

function OneReading({ entry, reading, path, set, remove }: OneProps) {
  const text = (key: 'method' | 'chart' | 'scale', label: string, hint?: string, suggestions?: readonly string[]) => (
    <TextField
      label={label}
      field={`${path}.${key}`}
      value={reading[key]}
      problem={entry.problem(`${path}.${key}`)}
      {...(hint === undefined ? {} : { hint })}
      {...(suggestions === undefined ? {} : { suggestions })}
      {...(key === 'scale' ? { optional: 'if stated' as const } : {})}
      onValue={(value) => {
        entry.touch(`${path}.${key}`);
        set({ [key]: value });
      }}
    />
  );
  return (
    <section class="nested" aria-label={`Reading of ${reading.method}`}>
      <div class="fields">
        {text('method', 'Method', undefined, ['EN 1011-2 method A'])}
        {text('chart', 'Chart', 'Figure or page, and edition.')}
        {text('scale', 'Hydrogen scale or curve', undefined, ['A', 'B', 'C', 'D', 'E'])}
        <SelectField
          label="Read for"
          value={reading.part}
          choices={[
            { value: '', text: 'the whole joint' },
            ...entry.draft.parts.map(({ id }) => ({ value: id, text: id })),
          ]}
          onValue={(part) => set({ part })}
        />
        <NumberField
          entry={entry}
          label="Combined thickness"
          kind="length"
          field={`${path}.combinedThicknessMillimetres`}
          optional="if stated"
          value={reading.combinedThickness}
          onValue={(combinedThickness) => set({ combinedThickness })}
        />
        <NumberField
          entry={entry}
          label="Heat input"
          kind="heat input"
          field={`${path}.heatInputKilojoulesPerMillimetre`}
          optional="if stated"
          value={reading.heatInput}
          onValue={(heatInput) => set({ heatInput })}
        />
        <NumberField
          entry={entry}
          label="Carbon equivalent"
          unit="%"
          field={`${path}.carbonEquivalentPercent`}
          optional="if stated"
          value={reading.equivalent}
          onValue={(equivalent) => set({ equivalent })}
        />
        <NumberField
          entry={entry}
          label="The chart says, at least"
          kind="temperature"
          field={`${path}.preheatMinimumCelsius`}
          value={reading.minimum}
          onValue={(minimum) => set({ minimum })}
        />
        <SelectField
          label="It"
          value={reading.role}
          choices={[
            { value: 'may govern', text: 'may govern' },
            { value: 'comparison only', text: 'is for comparison only' },
          ]}
          onValue={(role) => set({ role })}
        />
      </div>
      <button type="button" class="plain" onClick={remove}>
        Remove this reading
      </button>
    </section>
  );
}
