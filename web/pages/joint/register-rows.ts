/** The register as it is listed: what needs somebody first, then what runs out soonest. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { InstrumentStatus } from '../../../server/judgement/measuring/instrument-status.ts';

export interface RegisterRow extends InstrumentStatus {
  /** ", due 2026-03-31", or that no day is stated. */
  readonly due: string;
  readonly needs: boolean;
}

export const registerRows = ({ instruments = [] }: Pick<Assessment, 'instruments'>): RegisterRow[] =>
  instruments
    .map((each) => ({
      ...each,
      due: each.instrument.dueOn === undefined ? ', no day stated' : `, due ${each.instrument.dueOn}`,
      needs: each.calibration !== 'valid',
    }))
    .sort(
      (a, b) =>
        rank[a.calibration] - rank[b.calibration] ||
        (a.instrument.dueOn ?? '9999').localeCompare(b.instrument.dueOn ?? '9999') ||
        a.instrument.id.localeCompare(b.instrument.id),
    );

const rank: Readonly<Record<InstrumentStatus['calibration'], number>> = {
  failed: 0,
  overdue: 1,
  'not known': 2,
  valid: 3,
};
