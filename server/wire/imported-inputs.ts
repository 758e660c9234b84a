/** Logs and acts of a job as the inputs of a judge: an opening that says "imported", then scans and acts by time. */
import type { Instant } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Scan } from '../weld/scan.ts';
import type { ActInput } from './events-file.ts';
import type { LogSet } from './log-set.ts';

export interface Imported {
  readonly joint: Joint;
  readonly logs: Pick<LogSet, 'scans' | 'firstAt' | 'lastAt' | 'periodMilliseconds' | 'timeForm' | 'files'>;
  readonly acts: readonly ActInput[];
  /** Elapsed times have a beginning that somebody stated. */
  readonly isDated: boolean;
  readonly rules: string;
  readonly station: string;
  readonly openedBy: string;
}

/** What the first entry says of where the data come from. */
const importedSource = ({ logs, isDated }: Pick<Imported, 'logs' | 'isDated'>) => {
  const names = logs.files.map(({ name }) => name.split(/[\\/]/).at(-1));
  const shown = names.length > 3 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');
  const undated = logs.timeForm === 'elapsed' && !isDated;
  return {
    kind: 'imported' as const,
    detail: `${names.length === 1 ? 'log' : 'logs'} ${shown}${undated ? undatedRemark : ''}`.slice(0, 400),
  };
};

/** An elapsed time has to stand on some date on paper; nobody may take it for the day of the job. */
const undatedRemark =
  '; its times are elapsed times, so the dates shown here mean nothing and only durations are right';

/** Of the same instant the reading came first. */
export function* importedInputs(imported: Imported): Iterable<Input> {
  const { joint, logs, acts, rules, station, openedBy } = imported;
  const firstAt = logs.firstAt as Instant;
  yield {
    type: 'station',
    at: Math.min(firstAt, acts[0]?.at ?? firstAt) as Instant,
    event: {
      kind: 'opened',
      joint,
      source: importedSource(imported),
      periodMilliseconds: logs.periodMilliseconds ?? 1000,
      openedBy,
      rules,
      station,
    },
  };
  let next = 0;
  for (const scan of logs.scans as Iterable<Scan>) {
    for (; next < acts.length && acts[next]!.at < scan.arrivedAt; next++) yield acts[next]!;
    yield { type: 'scan', scan };
  }
  yield* acts.slice(next);
}
