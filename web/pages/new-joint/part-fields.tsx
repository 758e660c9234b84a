/** The parts of the joint with their analyses. */
import { limits } from '../../../server/measure/limits.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { AnalysisFields } from './analysis-fields.tsx';
import { emptyAnalysis, emptyPart, type PartDraft } from './draft.ts';
import { type Entry, replaced, without } from './entry.tsx';

export function PartFields({ entry }: { readonly entry: Entry }) {
  const { parts } = entry.draft;
  const set = (index: number, part: Partial<PartDraft>): void => {
    const before = parts[index];
    // Probes name their part: they follow when it is renamed.
    const probes =
      part.id === undefined || before === undefined
        ? entry.draft.probes
        : entry.draft.probes.map((probe) => (probe.part === before.id ? { ...probe, part: part.id! } : probe));
    entry.change({ parts: replaced(parts, index, part), probes });
  };
  return (
    <fieldset class="group">
      <legend>Parts</legend>
      {parts.map((part, index) => {
        const path = `parts.${index}`;
        return (
          // The place is the key: a part has no identity but its place in the list
          <section class="member" key={index} aria-label={`Part ${part.id}`}>
            <div class="fields">
              <TextField
                label="Part"
                field={`${path}.id`}
                value={part.id}
                problem={entry.problem(`${path}.id`)}
                onValue={(id) => {
                  entry.touch(`${path}.id`);
                  set(index, { id });
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
                onValue={(side) => set(index, { side })}
              />
              <TextField
                label="Thickness"
                kind="number"
                unit="mm"
                field={`${path}.thicknessMillimetres`}
                value={part.thickness}
                problem={entry.problem(`${path}.thicknessMillimetres`)}
                onValue={(thickness) => {
                  entry.touch(`${path}.thicknessMillimetres`);
                  set(index, { thickness });
                }}
              />
              <TextField
                label="Grade"
                optional
                value={part.grade}
                problem={entry.problem(`${path}.grade`)}
                onValue={(grade) => set(index, { grade })}
              />
            </div>
            {part.analyses.map((analysis, nth) => (
              // The place is the key: an analysis has no identity but its place in the list
              <div key={nth} class="nested">
                <div class="row">
                  <h3>Analysis{part.analyses.length > 1 ? ` ${nth + 1}` : ''}, percent by mass</h3>
                  <span class="grow" />
                  <button
                    type="button"
                    class="plain"
                    aria-label={`Remove analysis ${nth + 1} of ${part.id}`}
                    onClick={() => set(index, { analyses: without(part.analyses, nth) })}
                  >
                    Remove
                  </button>
                </div>
                <AnalysisFields
                  entry={entry}
                  analysis={analysis}
                  path={`${path}.analyses.${nth}`}
                  onChange={(next) => set(index, { analyses: replaced(part.analyses, nth, next) })}
                />
              </div>
            ))}
            <div class="row wrap">
              {part.analyses.length < 8 && (
                <button
                  type="button"
                  class="plain"
                  onClick={() => set(index, { analyses: [...part.analyses, emptyAnalysis] })}
                >
                  Add an analysis
                </button>
              )}
              {parts[0] !== undefined && index > 0 && (
                <button
                  type="button"
                  class="plain"
                  onClick={() => set(index, { analyses: parts[0]!.analyses, grade: part.grade || parts[0]!.grade })}
                >
                  Same steel as {parts[0].id}
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
      })}
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
