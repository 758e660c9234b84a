/** A job that was made ready from its logs comes into the record: all of it at once, or a refusal in the desk's own words. */
import { NotRecording, Refusal } from '../desk/refusal.ts';
import { type NotDecided, type WholeJob, wholeItems } from '../errands/keep-logs.ts';
import { CanonicalFailure } from '../ledger/canonical.ts';
import type { Pipeline } from '../pipeline.ts';
import { RecordFailure } from '../record/failure.ts';
import type { RecordStore } from '../record/store.ts';
import type { LogsView } from '../screen/logs-view.ts';
import type { Signed } from '../weld/signed.ts';

export function keepJob(
  record: Pick<RecordStore, 'keepWhole'>,
  job: WholeJob | NotDecided | LogsView,
  { now, notRecordingBecause }: Pick<Pipeline, 'now' | 'notRecordingBecause'>,
  keeper: Signed,
): { readonly joint: string; readonly verdict: string } {
  if ('notDecided' in job) throw new Refusal(job.notDecided);
  if (!('parts' in job)) {
    const found = job.problems[0] ?? job.files.flatMap(({ problems }) => problems)[0];
    const allowed = 'logs that are read to their end; answer what is asked first';
    throw new Refusal([{ field: 'files', found: found?.message ?? 'no readings', allowed }]);
  }
  const because = notRecordingBecause();
  if (because !== undefined) throw new NotRecording(because);
  try {
    record.keepWhole(job.chain, wholeItems(job, now(), keeper));
  } catch (cause) {
    if (cause instanceof RecordFailure) throw new NotRecording(cause.message);
    if (!(cause instanceof CanonicalFailure)) throw cause;
    throw new Refusal([{ field: 'joint', found: cause.message, allowed: 'what the record can hold' }]);
  }
  return { joint: job.chain, verdict: job.verdict };
}
