/** A part that nobody said is being heated: noise at rest is no change of phase, a clear rise is one, and its end is one. */
import { expect, test } from 'vitest';
import { jointOn, pipelineBench } from '../../support/pipeline-bench.ts';
import { random } from '../../support/random.ts';

test('noise begins no heating and ends none; a rise of some kelvin does', async () => {
  const bench = pipelineBench();
  const chance = random(7);
  bench.hello('b1', { periodMilliseconds: 5000 });
  await bench.open(jointOn('one', 'b1'));
  const noisy = (celsius: number): number => celsius + 0.5 * (chance() - 0.5);
  const read = (minutes: number, celsius: (minute: number) => number): void => {
    for (let second = 0; second < 60 * minutes; second += 5) {
      const now = celsius(second / 60);
      bench.sample('b1', [noisy(now), noisy(now)]);
      bench.clock.move(5000);
    }
  };
  const phases = () =>
    bench.steps.flatMap(({ items }) =>
      items.flatMap((item) =>
        item.type === 'entry' && item.kind === 'phase' ? [(item.body as { phase: string }).phase] : [],
      ),
    );
  read(15, () => 20);
  expect(phases().filter((phase) => phase === 'heating')).toEqual([]);
  const before = phases().length;
  read(10, (minute) => 20 + 0.5 * minute);
  read(10, () => 25);
  expect(phases().slice(before)).toEqual(['heating', 'planned']);
});
