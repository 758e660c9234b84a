/** How the calibration of one instrument of the register stands. */
import type { Instrument } from '../../weld/instrument.ts';

export interface InstrumentStatus {
  /** After what was entered of it. */
  readonly instrument: Instrument;
  readonly calibration: 'valid' | 'overdue' | 'not known' | 'failed';
}
