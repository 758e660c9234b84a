/** The uncertainty of a line as a band about it, at the points at which the line is drawn. */
import type { HistorySeries } from '../../measure/history.ts';
import type { BandPoint } from './chart-model.ts';
import type { Course } from './course.ts';

/** Undefined where uncertainty is not kept. */
export const bandOf = ({ steps, expandedUncertainty }: HistorySeries, { runs }: Course): BandPoint[][] | undefined => {
  if (expandedUncertainty === undefined) return undefined;
  let step = 0;
  const widthAt = (at: number): number => {
    while (step + 1 < steps.length && steps[step + 1]![0] <= at) step += 1;
    // A gap has none; what was measured just before it stands for it.
    return expandedUncertainty[step]! || expandedUncertainty[Math.max(0, step - 1)]!;
  };
  return runs.map((run) =>
    run.map(([at, value]): BandPoint => {
      const width = widthAt(at);
      return [at, value - width, value + width];
    }),
  );
};
