/** New numbers come more seldom than readings: each is read several times. Coarse numbers that repeat by right are not meant. */
import { block, type inBlock, newest } from '../history.ts';
import { numbers } from '../numbers.ts';
import type { Sighting } from '../sign.ts';
import type { Detector, Watched } from '../view.ts';

export const slow: Detector = ({ watched }) => watched.flatMap(slowOf);

function slowOf({ probe, history }: Watched): Sighting[] {
  const { repeatedBlocks } = numbers;
  const of = (what: keyof typeof inBlock): number[] =>
    Array.from({ length: repeatedBlocks }, (_, back) => block(history, back, what));
  const total = (what: keyof typeof inBlock): number => {
    let all = 0;
    for (let back = 0; back < repeatedBlocks; back += 1) all += block(history, back, what);
    return all;
  };
  const repeats = total('repeats');
  if (!(repeats >= numbers.repeatedShare * total('values'))) return [];
  const runs = total('runs');
  if (runs < numbers.repeatedRuns) return [];
  // Each number is read equally often; one that stood and then moved is not.
  const length = total('runLengths') / runs;
  const spread = total('runSquares') / runs - length * length;
  const present = history.newest[newest.same]!;
  if (!(spread <= numbers.repeatedEven * length * length) || present > numbers.repeatedLonger * length) return [];
  // Each change is several of the smallest steps: between two of them the number would have moved.
  const isVoltage = !Number.isNaN(history.newest[newest.volts]!);
  const smallest = isVoltage ? history.newest[newest.step]! : Math.min(...of('smallestStep'));
  const steps = of('step').filter((each) => !Number.isNaN(each));
  if (!(sum(steps) / steps.length >= numbers.repeatedSteps * smallest)) return [];
  const span = block(history, 0, 'at') - block(history, repeatedBlocks, 'at');
  if (Number.isNaN(span)) return [];
  return [{ kind: 'slow-poll', probe, sure: 'likely', seen: { lasting: Math.round(span / runs), times: repeats } }];
}

const sum = (values: readonly number[]): number => values.reduce((all, each) => all + each, 0);
