/** The same number again and again, aware of how fine the instrument's numbers are: coarse ones repeat by right. */
import type { Instant } from '../../measure/quantity.ts';
import { block, newest } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import { changeSince, companyOf, type Detector, reading, type View, type Watched } from '../view.ts';

export const stuck: Detector = (view) => view.watched.flatMap((watched) => stuckOf(view, watched));

function stuckOf(view: View, watched: Watched): Sighting[] {
  const { newest: last } = watched.history;
  const [same, since, step] = [last[newest.same]!, last[newest.sameSince]!, last[newest.step]!];
  const lasting = last[newest.at]! - since;
  if (same < numbers.stuckReadings || lasting < numbers.stuckAtLeast || Number.isNaN(reading(watched))) return [];
  const others = least(companyOf(view, watched).map((each) => Math.abs(changeSince(each, since))));
  const moved = others >= Math.max(numbers.stuckOthersMoved, numbers.stuckOthersSteps * kelvinOf(watched, step));
  const sure = wasNoisy(watched, since)
    ? 'clear'
    : moved && lasting > Math.max(watched.lag, numbers.stuckWithoutNoise)
      ? 'likely'
      : undefined;
  if (sure === undefined) return [];
  return [
    {
      kind: 'stuck',
      probe: watched.probe,
      sure,
      since: since as Instant,
      seen: {
        reading: Math.round(reading(watched)),
        lasting: Math.round(lasting),
        times: same,
        ...(moved ? { others: Math.round(others) } : {}),
      },
    },
  ];
}

/** All of them have to have moved: a soak that is held may well show the same whole degree for an hour while welding warms one place. */
const least = (values: readonly number[]): number => (values.length === 0 ? Number.NaN : Math.min(...values));

/** Before it stood still its noise alone was wider than the steps of its numbers: so long a run cannot come about. */
function wasNoisy(watched: Watched, since: number): boolean {
  const { history } = watched;
  for (let back = 0; back < numbers.blocksKept; back += 1) {
    if (block(history, back, 'at') >= since) continue;
    // A voltage has one step at all temperatures, a temperature may have several.
    const isVoltage = !Number.isNaN(history.newest[newest.volts]!);
    const before = Array.from({ length: 3 }, (_, more) => block(history, back + more, 'smallestStep'));
    const fine = kelvinOf(watched, isVoltage ? history.newest[newest.step]! : Math.max(...before));
    return block(history, back, 'noise') >= numbers.stuckNoiseSteps * fine;
  }
  return false;
}

const kelvinOf = ({ history }: Watched, step: number): number =>
  Number.isNaN(history.newest[newest.volts]!) ? step : step * numbers.kelvinPerDeciMicrovolt;
