/** What a restart learns of a chain beside its judgement. */
import type { Instant } from '../measure/quantity.ts';
import { arrival, type Input } from '../weld/entry.ts';
import type { Scan } from '../weld/scan.ts';

/** Looks at what goes by: the newest scan of each board, and how far time had come. */
export function* watched(
  inputs: Iterable<Input>,
  newest: Map<string, Scan>,
  notBefore: (at: Instant) => void,
): Iterable<Input> {
  let last = 0 as Instant;
  for (const input of inputs) {
    if (input.type === 'scan') newest.set(input.scan.board, input.scan);
    last = Math.max(last, arrival(input)) as Instant;
    yield input;
  }
  notBefore(last);
}
