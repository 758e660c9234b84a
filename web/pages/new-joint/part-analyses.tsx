/** The analyses of one part: of several heats or papers, each added and removed by itself; the one that asks for most governs. */
import { AnalysisFields } from './analysis-fields.tsx';
import { emptyAnalysis } from './empty-draft.ts';
import { replaced, without } from './entry.tsx';
import type { PartProps } from './part-fields.tsx';

/** As many as a part may hold (server/weld/joint.ts). */
const analysesMost = 8;

export function PartAnalyses({ entry, part, index, set }: PartProps) {
  const { analyses } = part;
  return (
    <>
      {analyses.map((analysis, nth) => (
        // The place is the key: an analysis has no identity but its place in the list
        <div key={nth} class="nested">
          <div class="row">
            <h3>Analysis{analyses.length > 1 ? ` ${nth + 1}` : ''}, percent by mass</h3>
            <span class="grow" />
            <button
              type="button"
              class="plain"
              aria-label={`Remove analysis ${nth + 1} of ${part.id}`}
              onClick={() => set({ analyses: without(analyses, nth) })}
            >
              Remove
            </button>
          </div>
          <AnalysisFields
            entry={entry}
            analysis={analysis}
            path={`parts.${index}.analyses.${nth}`}
            onChange={(next) => set({ analyses: replaced(analyses, nth, next) })}
          />
        </div>
      ))}
      {analyses.length > 1 && <p class="hint">Of several analyses the one that asks for most counts.</p>}
      {analyses.length < analysesMost && (
        <button type="button" class="plain start" onClick={() => set({ analyses: [...analyses, emptyAnalysis] })}>
          Add {analyses.length === 0 ? 'an analysis' : 'another analysis or heat'}
        </button>
      )}
    </>
  );
}
