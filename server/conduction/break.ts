/**
 * How long a break may last: from the present on with the heat off and the pads away, both faces giving heat to the
 * air, until the coldest point through the thickness falls below a temperature.
 */
import type { Milliseconds } from '../measure/quantity.ts';
import { follow } from './ahead.ts';
import { bounds } from './bounds.ts';
import { backAhead, farLossAhead, frontLeft } from './faces.ts';
import type { FarLoss } from './far-loss.ts';
import { coldestOf } from './field.ts';
import { coolingCases } from './loss.ts';
import { type Refusal, refuse } from './refusal.ts';
import { type Section, wallsOf } from './section.ts';
import type { Wall } from './wall.ts';

export interface CoolingOutlook {
  /** From the present; 0 where it is below already. Absent where it takes longer than `within`. */
  readonly earliest?: Milliseconds;
  readonly likely?: Milliseconds;
  readonly latest?: Milliseconds;
  readonly within: Milliseconds;
}

/**
 * `now` is a section at its present (`sectionNow`). All of it are upper bounds for a part that was heated in one place
 * only: heat goes sideways too, and how much is not known here. Behind a colder mass or a fluid it is refused, since
 * what that takes can not be named, unless probes on both faces found it and it is handed in.
 */
export function coolingOutlook(now: Section, aboveCelsius: number, found?: FarLoss): CoolingOutlook | Refusal {
  if (!Number.isFinite(aboveCelsius)) return refuse('not a number', 'The temperature to stay above must be a number.');
  if (farLossAhead(now, now.likely, found) === undefined) {
    return refuse(
      'far side not judged',
      'Behind the wall is a colder mass or a fluid: what it takes while the heat is off can not be named. Go by the probes.',
    );
  }
  const all = wallsOf(now).map((wall) => belowAfter(now, wall, aboveCelsius, found));
  const [likely] = all;
  const fallen = all.filter((seconds) => seconds !== undefined);
  return {
    ...(fallen.length > 0 && { earliest: Math.floor(Math.min(...fallen) * 1000) as Milliseconds }),
    ...(likely !== undefined && { likely: Math.round(likely * 1000) as Milliseconds }),
    ...(fallen.length === all.length && { latest: Math.ceil(Math.max(...fallen) * 1000) as Milliseconds }),
    within: longest,
  };
}

const longest = (bounds.coolingHoursMaximum * 3_600_000) as Milliseconds;

/** Seconds; undefined where it takes longer than is told. */
function belowAfter(now: Section, wall: Wall, celsius: number, found?: FarLoss): number | undefined {
  let last = { at: 0, coldest: coldestOf(wall.field) };
  if (last.coldest < celsius) return 0;
  const front = frontLeft(now, wall, coolingCases);
  const course = {
    front: () => front,
    back: backAhead(now, wall, found),
    bends: [],
    until: longest / 1000,
    sideways: () => 0,
  };
  let below: number | undefined;
  follow(wall, course, (at, field) => {
    const coldest = coldestOf(field);
    if (coldest < celsius) below = last.at + ((at - last.at) * (last.coldest - celsius)) / (last.coldest - coldest);
    last = { at, coldest };
    return below !== undefined;
  });
  return below;
}
