/** When an input takes effect: a scan when it came, unless it came late; an act when it happened. */
import type { Instant } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';

export function effectiveAt(input: Input): Instant {
  if (input.type === 'scan') return input.scan.late ? input.scan.measuredAt : input.scan.arrivedAt;
  if (input.type === 'act' && 'happenedAt' in input.act && input.act.happenedAt !== undefined) {
    return Math.min(input.act.happenedAt, input.at) as Instant;
  }
  return input.at;
}
