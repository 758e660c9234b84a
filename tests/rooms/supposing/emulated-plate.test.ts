/** The far face insulated, against an emulated plate that was: its model of heat shares nothing with the judge's. */
import { expect, test } from 'vitest';
import { createPart, noLoss, usualPart } from '../../../firmware-protocol/emulator/part.ts';
import { type Instant, instant, milliCelsius } from '../../../server/measure/quantity.ts';
import { suppose } from '../../../server/supposing/suppose.ts';
import type { Input } from '../../../server/weld/entry.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { plainJoint, plainPart } from '../../support/plain-joint.ts';

const period = 5;
const minimum = 120;
const distance = 250;

/** 60 mm under a heater far wider than it is thick; the heated face as read, and when the far one was truly warm. */
function emulated(): { readonly front: readonly number[]; readonly warmAfter: number } {
  const part = createPart({
    ...usualPart,
    thicknessMillimetres: 60,
    bandMillimetres: 600,
    controlMillimetres: distance,
    widthMillimetres: 600,
    backLoss: noLoss,
  });
  part.heater({ on: true, setPointCelsius: 150 });
  const front: number[] = [];
  let warmAfter: number | undefined;
  for (let second = 0; second <= 4200; second += period) {
    front.push(part.celsiusAt(0, distance));
    if (part.celsiusAt(1, distance) >= minimum) warmAfter ??= second;
    part.advance(period);
  }
  return { front, warmAfter: warmAfter! };
}

const joint: Joint = jointSchema.parse(
  plainJoint({
    parts: [plainPart({ thicknessMillimetres: 60, farSide: 'draught' })],
    heating: { means: 'resistance pads', face: 'front', whileWelding: 'on', halfWidthMillimetres: 600, airCelsius: 20 },
    procedure: {
      ...{ id: 'W', revision: '1', decisionRule: 'simple acceptance' },
      ...{ preheatMinimumCelsius: minimum, throughThicknessHoldMinutes: 0 },
    },
    probes: (['A', 'B'] as const).map((side, index) => ({
      ...{ id: `T${side}`, board: 'b', channel: index + 1, thermocouple: 'K', use: 'zone' },
      place: { part: 'plate', side, face: 'front', distanceMillimetres: distance },
    })),
  }),
);

test('the moment is not before the far face was truly warm, and not long after', () => {
  const { front, warmAfter } = emulated();
  const begins = Date.UTC(2026, 2, 2);
  const at = (n: number): Instant => instant(begins + n * period * 1000);
  const source = { kind: 'simulated', detail: '' } as const;
  const opened = {
    kind: 'opened',
    joint,
    source,
    periodMilliseconds: period * 1000,
    openedBy: 'x',
    rules: '',
    station: '',
  } as const;
  const inputs: Input[] = [
    { type: 'station', at: at(0), event: opened },
    ...front.map((celsius, n): Input => {
      const temperature = milliCelsius(celsius);
      const raw = { form: 'temperature', reported: temperature } as const;
      const values = joint.probes.map(({ id }) => ({ probe: id, quality: 'good', temperature, raw }) as const);
      const scan = { board: 'b', boot: 1, sequence: n, ticks: n * period * 1000, late: false, inputs: 0, values };
      return { type: 'scan', scan: { ...scan, measuredAt: at(n), arrivedAt: at(n) } };
    }),
  ];
  const answer = suppose(inputs, { supposed: { kind: 'far face insulated' } });
  if ('problems' in answer) throw new Error('refused');
  const after = (answer.wouldBe.coreAt! - begins) / 1000;
  expect(after, `truly warm after ${warmAfter} s`).toBeGreaterThanOrEqual(warmAfter);
  // Of the steel the least that is possible is taken: a fifth slower, and the band of the readings.
  expect(after).toBeLessThan(1.5 * warmAfter);
  expect(answer.now.coreAt === undefined || answer.now.coreAt > answer.wouldBe.coreAt!).toBe(true);
});
