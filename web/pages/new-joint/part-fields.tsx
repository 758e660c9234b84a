/** The parts of the joint with their analyses. */
import { limits } from '../../../server/measure/limits.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { codeAsks } from './code-asks.ts';
import type { PartDraft } from './draft.ts';
import { emptyPart } from './empty-draft.ts';
import { type Entry, replaced, without } from './entry.tsx';
import { NumberField } from './number-field.tsx';
import { PartAnalyses } from './part-analyses.tsx';
import { HeatOfPart } from './part-heat.tsx';
import { CodeOfPart, MoreOfPart } from './part-more.tsx';

export function PartFields({ entry }: { readonly entry: Entry }) {
  const { parts } = entry.draft;
  const set = (index: number, part: Partial<PartDraft>): void => {
    const before = parts[index];
    // Probes and readings name their part: they follow when it is renamed.
    const follow = <T extends { readonly part: string }>(list: readonly T[]): readonly T[] =>
      part.id === undefined || before === undefined
        ? list
        : list.map((each) => (each.part === before.id ? { ...each, part: part.id! } : each));
    const { probes, chartReadings } = entry.draft;
    entry.change({
      parts: replaced(parts, index, part),
      probes: follow(probes),
      chartReadings: follow(chartReadings),
    });
  };
  return (
    <fieldset class="group">
      <legend>Parts</legend>
      {parts.map((part, index) => (
        // The place is the key: a part has no identity but its place in the list
        <OnePart key={index} entry={entry} part={part} index={index} set={(next) => set(index, next)} />
      ))}
      {parts.length < limits.partsMaximum && (
        <button
          type="button"
          class="plain"
          onClick={() => entry.change({ parts: [...parts, emptyPart(`part ${parts.length + 1}`, 'B')] })}
        >
          Add a part
        </button>
      )}
      <p class="hint">
        An element that the paper does not name is "not reported" (n.r.), which is not zero: where a formula needs it,
        it is asked for.
      </p>
    </fieldset>
  );
}

export interface PartProps {
  readonly entry: Entry;
  readonly part: PartDraft;
  readonly index: number;
  readonly set: (part: Partial<PartDraft>) => void;
}

function OnePart(props: PartProps) {
  const { entry, part, index, set } = props;
  const { parts, codeSet } = entry.draft;
  const path = `parts.${index}`;
  const [first] = parts;
  return (
    <section class="member" aria-label={`Part ${part.id}`}>
      <div class="fields">
        <TextField
          label="Part"
          field={`${path}.id`}
          value={part.id}
          problem={entry.problem(`${path}.id`)}
          onValue={(id) => {
            entry.touch(`${path}.id`);
            set({ id });
          }}
        />
        <SelectField
          label="Side of the groove"
          value={part.side}
          choices={[
            { value: 'A', text: 'A' },
            { value: 'B', text: 'B' },
            { value: 'both', text: 'both (one piece)' },
          ]}
          onValue={(side) => set({ side })}
        />
        <NumberField
          entry={entry}
          label="Thickness"
          kind="length"
          field={`${path}.thicknessMillimetres`}
          value={part.thickness}
          onValue={(thickness) => set({ thickness })}
        />
        <TextField
          label="Grade"
          optional
          value={part.grade}
          problem={entry.problem(`${path}.grade`)}
          onValue={(grade) => set({ grade })}
        />
      </div>
      <CodeOfPart {...props} asks={codeAsks(codeSet)} />
      <MoreOfPart {...props} asks={codeAsks(codeSet)} />
      <HeatOfPart {...props} />
      <PartAnalyses {...props} />
      <div class="row wrap">
        {first !== undefined && index > 0 && (
          <button
            type="button"
            class="plain"
            onClick={() => set({ ...steelOf(first), grade: part.grade || first.grade, analyses: first.analyses })}
          >
            Same steel as {first.id}
          </button>
        )}
        {parts.length > 1 && (
          <button type="button" class="plain" onClick={() => entry.change({ parts: without(parts, index) })}>
            Remove {part.id || 'this part'}
          </button>
        )}
      </div>
    </section>
  );
}

/** What goes with the steel, and not with the shape of the part. */
const steelOf = ({
  kind,
  yield: yieldStrength,
  tensile,
  pNumber,
  awsCategory,
  conductsAs,
}: PartDraft): Partial<PartDraft> => ({
  kind,
  yield: yieldStrength,
  tensile,
  pNumber,
  awsCategory,
  conductsAs,
});
