/** Scans as columns, as they stand in the canonical bytes: steps and runs (columns.ts). FORMAT.md, section 5, says what each holds. */

export const scansFormat = 1;

export interface Columns {
  readonly format: typeof scansFormat;
  readonly groups: readonly GroupColumns[];
  readonly order: Numbers;
}
export interface GroupColumns {
  readonly board: string;
  readonly boot: Numbers;
  readonly inputs: Numbers;
  readonly late: Numbers;
  readonly sequence: Numbers;
  readonly ticks: Numbers;
  readonly measuredAt: Numbers;
  readonly arrivedAt: Numbers;
  readonly probes: readonly ProbeColumns[];
}
export interface ProbeColumns {
  readonly probe: string;
  readonly quality: Numbers;
  readonly form: Numbers;
  readonly temperature: Numbers;
  readonly voltage: Numbers;
  readonly coldJunction: Numbers;
  readonly reported: Numbers;
  readonly text: readonly string[];
}
type Numbers = readonly number[];
