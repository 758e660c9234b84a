/** Looking ahead, against only bringing the five walls of a section to the present: what the station's thread is kept for. */
import { coolingOutlook } from '../../server/conduction/break.ts';
import { warmingPlan } from '../../server/conduction/plan.ts';
import { sectionNow } from '../../server/conduction/section.ts';
import { carbonSteel } from '../../server/conduction/steel/carbon.ts';
import { warmingOutlook } from '../../server/conduction/warming.ts';
import { driven, everySecond, rampTo, steelSection } from '../support/driven-wall.ts';
import type { BenchSet } from './bench.ts';

export async function prepareBench(): Promise<BenchSet> {
  const section = driven(steelSection(200, { far: 'draught' }), everySecond(0, 2400), rampTo(140, 300));
  const now = sectionNow(section);
  let seen = 0;
  const see = (made: object) => {
    seen += Object.keys(made).length;
  };
  return {
    title: 'Looking ahead from a section of 200 mm',
    unit: 'looks',
    baseline: { name: 'the present of the five walls', amount: 1, run: () => see(sectionNow(section)) },
    rows: [
      {
        name: 'time to ready, the trend to the set point',
        amount: 1,
        run: () =>
          see(
            warmingOutlook(
              now,
              { kind: 'rising', kelvinPerMinute: 5, toCelsius: 160 },
              { celsius: 150, holdMilliseconds: 600_000 },
            ),
          ),
        mostMilliseconds: 4,
      },
      {
        name: 'time to ready, the heat off',
        amount: 1,
        run: () => see(warmingOutlook(now, { kind: 'left' }, { celsius: 100, holdMilliseconds: 600_000 })),
        mostMilliseconds: 4,
      },
      { name: 'how long a break may last', amount: 1, run: () => see(coolingOutlook(now, 60)), mostMilliseconds: 4 },
      {
        name: 'a plan before heating',
        amount: 1,
        run: () =>
          see(
            warmingPlan({
              shape: { kind: 'plate', thicknessMillimetres: 200 },
              steel: carbonSteel,
              far: 'draught',
              ambientCelsius: 20,
              minimumCelsius: 150,
              holdMinutes: 30,
              rampKelvinPerHour: 100,
              setPointCelsius: 170,
            }),
          ),
        mostMilliseconds: 30,
      },
    ],
    close: () => {
      if (seen === 0) throw new Error('nothing was looked at');
    },
  };
}
