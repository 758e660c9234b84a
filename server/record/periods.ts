/** How often a joint's boards were to be heard, over time: a board may be told another period in the middle of a job. */
import type { Instant } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';

/** The longest period in force between the two instants, milliseconds; 1000 where nothing says. */
export function longestPeriod(inputs: Iterable<Input>, from: Instant, to: Instant): number {
  const inForce = new Map<string, number>();
  let longest = 0;
  let before = 0;
  for (const input of inputs) {
    if (input.type !== 'station' || input.at > to) continue;
    const { event, at } = input;
    if (event.kind === 'opened') inForce.set('', event.periodMilliseconds);
    if (event.kind === 'period') {
      // What the opening entry assumed gives way to what the boards themselves say.
      inForce.delete('');
      inForce.set(event.board, event.periodMilliseconds);
    }
    const now = Math.max(0, ...inForce.values());
    if (at <= from) before = now;
    else longest = Math.max(longest, now);
  }
  return Math.max(longest, before) || 1000;
}
