/**
 * Patterns of a converter part whose lines to the board fail: all bits clear, all bits set, or every bit one place too far
 * left. They look like temperatures and are none.
 */
import type { Raw } from '../../weld/scan.ts';
import { block } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting, SignKind } from '../sign.ts';
import { companyOf, type Detector, middle, reading, type View, type Watched } from '../view.ts';

export type RawPattern = 'bus-zeros' | 'bus-ones';

/** Of one raw number. */
export function busPattern(raw: Raw): RawPattern | undefined {
  if (raw.form === 'voltage') {
    if (raw.deciMicrovolts === 0 && raw.coldJunction === 0) return 'bus-zeros';
    return isNear(raw.coldJunction, numbers.allOnesTerminals, 15) &&
      isNear(raw.deciMicrovolts, numbers.allOnesVolts, 40)
      ? 'bus-ones'
      : undefined;
  }
  if (raw.form !== 'temperature') return undefined;
  if (raw.reported === 0) return 'bus-zeros';
  return raw.reported === numbers.allOnesReported ? 'bus-ones' : undefined;
}

export const bus: Detector = (view) =>
  view.watched.flatMap((watched) => [...patternOf(view, watched), ...doubledOf(view, watched)]);

function patternOf(view: View, watched: Watched): Sighting[] {
  const { pattern, patterns, patternSince } = watched.events;
  if (pattern === undefined || patterns < numbers.busTimes) return [];
  const others = middle(companyOf(view, watched).map(reading));
  const hasTerminals = !Number.isNaN(block(watched.history, 0, 'terminals'));
  const terminals = middle(othersOf(view, watched).map(({ history }) => block(history, 0, 'terminals')));
  if (pattern === 'bus-ones' && hasTerminals && Math.abs(terminals - numbers.allOnesTerminals) < 1000) return [];
  // Without a cold junction 0 degrees may be the air of a yard, unless others on the part are far from it.
  if (!hasTerminals && !(Math.abs(others) > numbers.doubledFrom)) return [];
  return [sighting(watched, pattern, hasTerminals ? 'clear' : 'likely', patternSince, { times: patterns })];
}

/** Reading and terminals both jump to twice what they were. */
function doubledOf(view: View, watched: Watched): Sighting[] {
  const { history } = watched;
  const [now, terminals] = [block(history, 0, 'mean'), block(history, 0, 'terminals')];
  if (!Number.isNaN(terminals) && isTwice(terminals, terminalsOfOthers(view, watched))) {
    const before = middle([1, 2, 3, 4, 5, 6].map((back) => block(history, back, 'mean')));
    return [sighting(watched, 'bus-doubled', 'likely', view.at, { reading: now, others: before, terminals })];
  }
  const jumped = Math.abs(watched.events.lastJump - now / 2) <= numbers.doubledJump * now;
  if (!jumped) return [];
  for (let back = 2; back <= 6; back += 1) {
    const before = [block(history, back, 'mean'), block(history, back, 'terminals')] as const;
    const both = isTwice(now, before[0]) && (Number.isNaN(terminals) || isTwice(terminals, before[1]));
    const kept = isTwice(block(history, 1, 'mean'), before[0]) || back === 2;
    if (both && kept && othersStayed(view, watched, back))
      return [
        sighting(watched, 'bus-doubled', Number.isNaN(terminals) ? 'possible' : 'clear', block(history, back, 'at'), {
          reading: now,
          others: before[0],
          ...(Number.isNaN(terminals) ? {} : { terminals }),
        }),
      ];
  }
  return [];
}

/** Others that differ among themselves do not tell what the terminals are. */
function terminalsOfOthers(view: View, watched: Watched): number {
  const told = othersOf(view, watched)
    .map((each) => block(each.history, 0, 'terminals'))
    .filter((each) => !Number.isNaN(each));
  const agree = Math.max(...told) - Math.min(...told) < numbers.terminalsJump;
  return agree ? middle(told) : Number.NaN;
}

const othersOf = (view: View, watched: Watched): Watched[] =>
  view.watched.filter((each) => each !== watched && each.trusted && !view.suspects.has(each.probe));

const isNear = (number: number, to: number, within: number): boolean => Math.abs(number - to) <= within;

const isTwice = (now: number, before: number): boolean =>
  before >= numbers.doubledFrom && Math.abs(now - 2 * before) <= numbers.doubledWithin * now;

const othersStayed = (view: View, watched: Watched, back: number): boolean =>
  companyOf(view, watched).every(({ history }) => !(block(history, 0, 'mean') > 1.3 * block(history, back, 'mean')));

const sighting = (
  { probe }: Watched,
  kind: SignKind,
  sure: Sighting['sure'],
  since: number,
  seen: Sighting['seen'],
): Sighting => ({ kind, probe, sure, since: since as never, seen: whole(seen) });

const whole = (seen: Sighting['seen']): Sighting['seen'] =>
  Object.fromEntries(
    Object.entries(seen)
      .filter(([, value]) => !Number.isNaN(value))
      .map(([name, value]) => [name, Math.round(value as number)]),
  );
