/** Time stamps that are handed in while the station runs: checked, and kept in the record of their joint. */
import { NotRecording } from '../desk/refusal.ts';
import type { StampDesk } from '../desk/stamps.ts';
import { RecordFailure } from '../record/failure.ts';
import { checkedStamp } from '../record/stamping.ts';
import type { RecordStore } from '../record/store.ts';
import { stampText } from '../wording/stamp.ts';

export const keptStamps =
  (record: Pick<RecordStore, 'hashes' | 'keepStamp'>): StampDesk['keepStamp'] =>
  (id, files) => {
    const checked = checkedStamp(record, [id], files);
    if ('refused' in checked) return checked;
    try {
      record.keepStamp(id, checked.body);
    } catch (cause) {
      throw cause instanceof RecordFailure ? new NotRecording(cause.message) : cause;
    }
    return { text: `entry ${checked.head.seq} was there at ${stampText(checked.stamp)}` };
  };
