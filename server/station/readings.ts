/** Readings moved out of the record and back while the station runs: the package is looked at in a thread, then it is one transaction. */

import type { ReadingsDesk } from '../desk/readings.ts';
import { NotRecording } from '../desk/refusal.ts';
import type { Errand, Outcome } from '../errands/errand.ts';
import type { PackageLooked } from '../errands/packaged.ts';
import type { Instant } from '../measure/quantity.ts';
import { RecordFailure, RecordRefusal } from '../record/failure.ts';
import type { RecordStore } from '../record/store.ts';

interface Parts {
  readonly record: Pick<RecordStore, 'removeReadings' | 'putBackReadings'>;
  readonly run: <E extends Errand>(errand: E) => Promise<Outcome<E>>;
  readonly now: () => Instant;
  /** A name that nobody can guess. */
  readonly newId: () => string;
}
type Fits = Exclude<PackageLooked, { refused: string }>;

export function readingsDesk({ record, run, now, newId }: Parts): ReadingsDesk {
  /** The newest only: of the package itself nothing is kept, and of its readings what is to come back. */
  let shelf: { readonly id: string; readonly joint: string; readonly looked: Fits } | undefined;
  const onShelf = (joint: string, id: string): Fits | undefined =>
    shelf?.id === id && shelf.joint === joint ? shelf.looked : undefined;
  return {
    async lookAtPackage(joint, bytes) {
      shelf = undefined;
      const looked = await run({ kind: 'look at package', joint, bytes });
      if ('refused' in looked) return looked;
      const id = newId();
      shelf = { id, joint, looked };
      const { way, body, bytesHere } = looked.fitting;
      return { id, way, sha256: body.package, scans: body.scans, bytes: bytesHere };
    },
    wayOf: (joint, id) => onShelf(joint, id)?.fitting.way,
    moveReadings(joint, id, by, reason) {
      const looked = onShelf(joint, id);
      if (looked === undefined) return { refused: 'Choose the file again.' };
      const asked = { by, at: now(), ...(reason === undefined ? {} : { reason }) };
      const { fitting, readings = new Map() } = looked;
      try {
        if (fitting.way === 'remove') record.removeReadings(fitting, asked);
        else record.putBackReadings(fitting, readings, asked);
      } catch (cause) {
        if (cause instanceof RecordRefusal) return { refused: cause.message };
        throw cause instanceof RecordFailure ? new NotRecording(cause.message) : cause;
      }
      shelf = undefined;
      const { scans } = fitting.body;
      return { text: fitting.way === 'remove' ? `${scans} scans removed` : `${scans} scans put back` };
    },
  };
}
