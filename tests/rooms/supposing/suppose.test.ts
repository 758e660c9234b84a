/** What if, with answers worked out by hand: times of a wait, straight falls of a temperature, and what hangs on one probe. */
import { describe, expect, test } from 'vitest';
import type { SupposedAnswer } from '../../../server/supposing/answer.ts';
import { suppose } from '../../../server/supposing/suppose.ts';
import type { Supposition } from '../../../server/supposing/supposition.ts';
import { readScenario, scenarioStart } from '../../support/scenario.ts';

const clock = (at: number | undefined): string | undefined => {
  if (at === undefined) return undefined;
  const seconds = Math.round((at - scenarioStart) / 1000);
  return `${Math.floor(seconds / 60)}:${`${seconds % 60}`.padStart(2, '0')}`;
};

function supposed(text: string, supposition: Supposition, at?: number): SupposedAnswer {
  const { inputs } = readScenario(`${text.trim()}\nexpect\nverdict x\n`);
  const before = JSON.stringify(inputs);
  const answer = suppose(inputs, { supposed: supposition, ...(at === undefined ? {} : { at }) });
  expect(JSON.stringify(inputs), 'what was recorded is not touched').toBe(before);
  if ('problems' in answer) throw new Error(JSON.stringify(answer.problems));
  return answer;
}
const kinds = (answer: SupposedAnswer) => ({
  gone: answer.gone.map(({ kind }) => kind),
  come: answer.come.map(({ kind }) => kind),
  unsure: answer.unsure.map(({ kind }) => kind),
});

/** 80 mm ask for 384 s after the heat is off; the arc comes after 200 s. */
const tooSoon = `# a wait cut short
joint: thickness 80, heated front, heaters off, minimum 145
probe: T1, zone, A, front, 75
probe: T2, zone, B, front, 75

time    T1   T2   act
0:00    160  160  heat on
1:00    160  160  heat off
4:20    160  160  start 1
5:00    160  160  end 1
6:00    160  160`;

/** Falls by 18 K a minute from 240 at the end of pass 3: 204 when pass 4 begins, 200 is reached 13.3 s later. */
const tooHot = `# pass 4 too hot
joint: thickness 40, heated back, heaters on, minimum 145, interpass 200
probe: T1, zone, A, front, 50
probe: T2, zone, B, front, 50
probe: P1, interpass, A, front, 10

time    T1   T2   P1   act
0:00    150  150  150  heat on
0:30    150  150  150  start 3
6:00    150  150  240  end 3
8:00    150  150  204  start 4
10:00   150  150  240  end 4
11:00   150  150  230`;

/** The place on side B is at 140 of 150 °C. */
const oneCold = `# one place cold
joint: thickness 40, heated back, heaters off, minimum 150
probe: T1, zone, A, front, 50
probe: T2, zone, B, front, 50
probe: T3, zone, B, front, 50

time    T1   T2   T3   act
0:00    155  155  140
5:00    155  155  140  start 1
6:00    155  155  140  end 1
7:00    155  155  140`;

describe('more time before a pass', () => {
  test('4 minutes more complete a wait of 384 s: ready at 7:24, the finding goes, it would comply', () => {
    const answer = supposed(tooSoon, { kind: 'more time', pass: '1', minutes: 4 });
    expect(kinds(answer)).toEqual({ gone: ['soak not met'], come: [], unsure: [] });
    expect(answer.now.verdict).toBe('does-not-comply');
    expect(answer.verdicts).toEqual(['complies']);
    expect(clock(answer.wouldBe.firstReadyAt)).toBe('7:24');
    expect(clock(answer.wouldBe.passes[0]!.startedAt)).toBe('8:20');
    expect(answer.places).toContainEqual({ probe: 'T1', asMeasured: 160_000, low: 160_000, high: 160_000 });
  });

  test('3 minutes are not enough: 380 s', () => {
    const answer = supposed(tooSoon, { kind: 'more time', pass: '1', minutes: 3 });
    expect(kinds(answer)).toEqual({ gone: [], come: [], unsure: [] });
    expect(answer.verdicts).toEqual(['does-not-comply']);
    expect(answer.wouldBe.firstReadyAt).toBeUndefined();
  });

  test('a straight fall of 18 K a minute: below the maximum after 14 s, told with where the place would be', () => {
    const answer = supposed(tooHot, { kind: 'more time', pass: '4', minutes: 2 });
    expect(kinds(answer)).toEqual({ gone: ['interpass above maximum'], come: [], unsure: [] });
    expect(answer.verdicts).toEqual(['complies']);
    expect(clock(answer.wouldBe.passes[0]!.readyAt)).toBe('8:14');
    expect(answer.places!.find(({ probe }) => probe === 'P1')).toEqual({
      probe: 'P1',
      asMeasured: 204_000,
      low: 168_000,
      high: 168_000,
    });
    const shorter = supposed(tooHot, { kind: 'more time', pass: '4', minutes: 0.2 });
    expect(shorter.verdicts, '12 s: 200.4').toEqual(['does-not-comply']);
  });

  test('a fall that slows down lies between two ends, and where the limit lies between them nothing is told', () => {
    // 14 K in the 75 s before, then 5 K in 75 s: at most 4 K a minute go on, and at least a third of the change before each time.
    const slowing = tooHot
      .replace(
        '6:00    150  150  240  end 3',
        '4:00    150  150  260  end 3\n5:30    150  150  220\n6:45    150  150  206',
      )
      .replace('8:00    150  150  204  start 4', '8:00    150  150  201   start 4');
    const answer = supposed(slowing, { kind: 'more time', pass: '4', minutes: 0.5 });
    const { low, high } = answer.places!.find(({ probe }) => probe === 'P1')!;
    expect(low, 'half a minute at 4 K a minute').toBeGreaterThan(197_500);
    expect(high).toBeGreaterThan(200_000);
    expect(kinds(answer).unsure, 'the limit of 200 lies between the two').toEqual(['interpass above maximum']);
    expect(answer.verdicts).toEqual(['complies', 'does-not-comply']);
    const long = supposed(slowing, { kind: 'more time', pass: '4', minutes: 30 });
    const wide = long.places!.find(({ probe }) => probe === 'P1')!;
    expect(wide.low, 'straight on').toBeLessThan(100_000);
    expect(wide.high, 'it comes to rest after some kelvin').toBeGreaterThan(195_000);
    expect(kinds(long).gone).toEqual(['interpass above maximum']);
  });

  test('where something acted on the joint less than a minute before, no place is carried on and nothing can be judged', () => {
    const justEnded = tooHot.replace('6:00    150  150  240  end 3', '7:30    150  150  213  end 3');
    const answer = supposed(justEnded, { kind: 'more time', pass: '4', minutes: 2 });
    expect(answer.remarks).toContain('some places cannot be carried on');
    expect(answer.places!.every(({ low }) => low === undefined)).toBe(true);
    expect(answer.verdicts).toEqual(['cannot-be-judged']);
    expect(kinds(answer).come).toEqual(expect.arrayContaining(['minimum not judged', 'interpass not judged']));
  });
});

describe('one probe left out', () => {
  test('the finding hangs on it alone', () => {
    const answer = supposed(oneCold, { kind: 'probe left out', probe: 'T3' });
    expect(kinds(answer)).toEqual({
      gone: ['below minimum at pass start', 'below minimum during pass'],
      come: [],
      unsure: [],
    });
    expect([answer.now.verdict, answer.verdicts]).toEqual(['does-not-comply', ['complies']]);
    expect(clock(answer.wouldBe.firstReadyAt)).toBe('0:00');
    expect(answer.now.firstReadyAt).toBeUndefined();
    expect(answer.remarks).toContain('place not measured then');
  });

  test('of two that stood for a side another one is then missing', () => {
    const answer = supposed(oneCold.replace('probe: T2, zone, B, front, 50\n', 'probe: T2, spare\n'), {
      kind: 'probe left out',
      probe: 'T3',
    });
    expect(kinds(answer).gone).toContain('below minimum at pass start');
    expect(answer.verdicts, 'side A alone is judged, with a zone probe').toEqual(['complies']);
  });
});

describe('limits as another procedure would state them', () => {
  test('a maximum of 205 for 200: kept', () => {
    const answer = supposed(tooHot, { kind: 'other limits', interpassMaximumCelsius: 205 });
    expect(kinds(answer)).toEqual({ gone: ['interpass above maximum'], come: [], unsure: [] });
    expect(answer.verdicts).toEqual(['complies']);
  });
  test('a minimum of 160 for 150: not kept', () => {
    const answer = supposed(tooHot, { kind: 'other limits', preheatMinimumCelsius: 160 });
    expect(new Set(kinds(answer).come)).toEqual(new Set(['below minimum at pass start', 'below minimum during pass']));
  });
});

describe('the far face insulated', () => {
  // The scenario core-after-the-hold, whose time is checked against the series of a ramped wall, with a far face that was not insulated.
  const ramped = `# ramp, then held
joint: thickness 100, heated front, heaters on, minimum 150, hold 5, core 5, means furnace, air 20, far still air
probe: T1, zone, A, front, 120
probe: T2, zone, B, front, 120
period: 2

time    T1   T2
0:00    20   20
28:00   160  160
50:00   160  160`;

  test('the core is warm when it is in a wall that is insulated', () => {
    const answer = supposed(ramped, { kind: 'far face insulated' });
    expect(answer.now.coreAt! - answer.wouldBe.coreAt!, 'in still air it comes later').toBeGreaterThan(60_000);
    expect(clock(answer.wouldBe.coreAt)).toBe('43:08');
    expect(answer.remarks).toEqual(['heated face as measured']);
  });

  test('where the far face was measured, only the core is told', () => {
    const measured = `${ramped.replace('period: 2', 'probe: B1, opposite face, A, back, 120\nperiod: 10')}`
      .replace('T1   T2\n', 'T1   T2   B1\n')
      .replace('20   20\n', '20   20   20\n')
      .replace('28:00   160  160', '28:00   160  160  130')
      .replace('50:00   160  160', '50:00   160  160  148');
    const answer = supposed(measured, { kind: 'far face insulated' });
    expect(answer.verdicts).toEqual([]);
    expect(clock(answer.wouldBe.coreAt), 'to the next reading').toMatch(/^43:[012]/);
    expect(answer.remarks).toContain('far face was measured');
  });
});

describe('of a joint that is still open', () => {
  const moment = (minutes: number) => scenarioStart + minutes * 60_000;
  const without = { kind: 'probe left out', probe: 'T3' } as const;

  test('it is told that it is, and up to when it was recorded', () => {
    const { stood } = supposed(oneCold, without);
    expect({ ...stood, at: clock(stood.at) }).toEqual({ at: '7:00', open: true, past: false });
  });

  test('as it stood before the arc: no pass, no finding of one, ready at once without the cold place', () => {
    const answer = supposed(oneCold, without, moment(4));
    expect(answer.stood).toEqual({ at: moment(4), open: true, past: true });
    expect([answer.now.passes, answer.wouldBe.passes]).toEqual([[], []]);
    expect(kinds(answer)).toEqual({ gone: [], come: [], unsure: [] });
    expect([answer.now.firstReadyAt, clock(answer.wouldBe.firstReadyAt)]).toEqual([undefined, '0:00']);
  });

  test('as it stood while the pass ran, 30 s after it had begun', () => {
    const answer = supposed(oneCold, without, moment(5.5));
    expect(kinds(answer).gone).toContain('below minimum at pass start');
    expect(answer.now.passes.map(({ pass }) => pass)).toEqual(['1']);
  });

  test('a moment that is none of its record is refused, and so is a pass that had not begun', () => {
    const { inputs } = readScenario(`${oneCold}\nexpect\nverdict x\n`);
    for (const minutes of [-1, 60])
      expect(JSON.stringify(suppose(inputs, { supposed: without, at: moment(minutes) }))).toContain('before the joint');
    const early = suppose(inputs, { supposed: { kind: 'more time', pass: '1', minutes: 2 }, at: moment(4) });
    expect(JSON.stringify(early)).toContain('a pass of this joint; it has none');
  });
});

test('what cannot be supposed is refused with what there is', () => {
  const { inputs } = readScenario(`${oneCold}\nexpect\nverdict x\n`);
  const told = (supposition: Supposition): string => JSON.stringify(suppose(inputs, { supposed: supposition }));
  expect(told({ kind: 'probe left out', probe: 'T9' })).toContain('a probe of this joint: T1, T2, T3');
  expect(told({ kind: 'more time', pass: '7', minutes: 2 })).toContain('a pass of this joint: 1');
  expect(told({ kind: 'other limits' })).toContain('at least one of preheatMinimumCelsius');
});
