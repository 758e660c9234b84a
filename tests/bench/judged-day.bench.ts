/**
 * A day of eight sections that read once a second, through the whole of the judge: probes, limits, holds and all bounds.
 * The baseline drives the same sections by themselves.
 */
import { driveSection, type Section } from '../../server/conduction/section.ts';
import { judgeAll } from '../../server/judgement/judge.ts';
import { type Instant, instant, type MilliCelsius, milliCelsius } from '../../server/measure/quantity.ts';
import type { Input } from '../../server/weld/entry.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { steelSection } from '../support/driven-wall.ts';
import { plainJoint } from '../support/plain-joint.ts';
import type { BenchSet } from './bench.ts';

const daySeconds = 24 * 3600;
const thicknesses = [20, 30, 40, 50, 75, 100, 150, 200];
const begins = Date.UTC(2026, 2, 2);
const at = (second: number): Instant => instant(begins + second * 1000);

export async function prepareBench(): Promise<BenchSet> {
  const inputs = [...inputsOfDay(joint())];
  let seen = 0;
  return {
    title: 'A day of eight sections at 1 Hz',
    unit: 'readings',
    baseline: {
      name: 'driven through the sections alone',
      amount: daySeconds * thicknesses.length,
      run: () => {
        const sections = thicknesses.map((each) => steelSection(each, { far: 'still air' }, { at: at(0) }));
        for (let second = 1; second <= daySeconds; second += 1)
          for (const [index, section] of sections.entries()) drive(section, second, index);
        seen += sections.length;
      },
    },
    rows: [
      {
        name: 'judged as a log',
        amount: daySeconds * thicknesses.length,
        run: () => {
          const { sections } = judgeAll(inputs).assessment;
          if (sections.some(({ state }) => state === 'not judged')) throw new Error('a section was not judged');
          seen += sections.length;
        },
        mostMilliseconds: 15_000,
      },
    ],
    close: () => {
      if (seen === 0) throw new Error('nothing was judged');
    },
  };
}

const drive = (section: Section, second: number, index: number): void => {
  if (driveSection(section, at(second), faceAt(second, index)) !== undefined) throw new Error('a reading was refused');
};

/** Up to 160 degrees in two hours and a half, then a slow swing. */
const faceAt = (second: number, index: number): MilliCelsius =>
  milliCelsius(Math.min(160, 20 + second / 65) + 3 * Math.sin(second / 700 + index));

const sideOf = (index: number): 'A' | 'B' => (index % 2 === 0 ? 'A' : 'B');

const joint = (): Joint =>
  jointSchema.parse({
    ...plainJoint(),
    parts: thicknesses.map((thicknessMillimetres, index) => ({
      id: `part ${index}`,
      side: sideOf(index),
      thicknessMillimetres,
      analyses: [],
      farSide: 'still air',
      conductsAs: 'carbon',
    })),
    heating: { means: 'furnace', face: 'front', whileWelding: 'on', airCelsius: 20 },
    probes: thicknesses.map((_, index) => ({
      id: `P${index}`,
      board: 'board-8',
      channel: index + 1,
      thermocouple: 'K',
      use: 'zone',
      place: { part: `part ${index}`, side: sideOf(index), face: 'front', distanceMillimetres: 250 },
    })),
    procedure: {
      id: 'P-1',
      revision: '0',
      preheatMinimumCelsius: 150,
      throughThicknessHoldMinutes: 10,
      decisionRule: 'simple acceptance',
    },
  });

function* inputsOfDay(joint: Joint): Iterable<Input> {
  yield {
    type: 'station',
    at: at(0),
    event: {
      kind: 'opened',
      joint,
      source: { kind: 'imported', detail: 'bench' },
      periodMilliseconds: 1000,
      openedBy: 'bench',
      rules: 'bench',
      station: 'bench',
    },
  };
  for (let second = 1; second <= daySeconds; second += 1) {
    const values = joint.probes.map(({ id }, index) => {
      const temperature = faceAt(second, index);
      return { probe: id, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } } as const;
    });
    yield {
      type: 'scan',
      scan: {
        board: 'board-8',
        boot: 1,
        sequence: second,
        ticks: second * 1000,
        measuredAt: at(second),
        arrivedAt: at(second),
        late: false,
        inputs: 0,
        values,
      },
    };
  }
}
