/** What lies ahead as the judge tells it: by which course, of which parts, and what a break may last. */
import { describe, expect, it } from 'vitest';
import { createJudge, type Judge } from '../../../server/judgement/judge.ts';
import { minutes } from '../../../server/measure/quantity.ts';
import { readScenario } from '../../support/scenario.ts';

const head = `# a plate of 80 mm
joint: thickness 80, heated front, heaters on, minimum 145, maintenance 120, core 5, half-width 400, air 20, far still air
probe: T1, zone, A, front, 120
probe: T2, zone, B, front, 120
period: 5

time    T1   T2   act
`;

/** Judged up to its last row. */
function judged(rows: string): Judge {
  const { inputs, end } = readScenario(`${head}${rows}expect\nverdict x\n`);
  const [first, ...rest] = inputs;
  if (first?.type !== 'station' || first.event.kind !== 'opened') throw new Error('no opening');
  const judge = createJudge(first.at, first.event);
  for (const input of rest) judge.take(input);
  judge.advance(end);
  return judge;
}

describe('the course of the heated face', () => {
  it('goes on as it rises, to the highest temperature allowed where no set point is stated', () => {
    const { sections } = judged('0:00 20 20 heat on\n30:00 120 120\n').outlook();
    expect(sections.map(({ part, course }) => [part, course])).toEqual([
      ['plate-a', 'rising'],
      ['plate-b', 'rising'],
    ]);
    for (const { ready, reaches } of sections) {
      expect(reaches).toBe('always');
      // 25 K at 3.3 K a minute, the lag of the far face and the hold of 5 min.
      expect(ready!.earliest).toBeGreaterThan(minutes(7.5 + 5));
      expect(ready!.latest).toBeLessThan(minutes(30));
      expect(ready!.earliest).toBeLessThanOrEqual(ready!.likely!);
      expect(ready!.likely).toBeLessThanOrEqual(ready!.latest!);
    }
  });

  it('is held where it does not rise, and then says what surface it takes', () => {
    const { sections } = judged('0:00 20 20 heat on\n30:00 146 146\n90:00 146 146\n').outlook();
    for (const { course, reaches, surfaceNeeded } of sections) {
      expect(course).toBe('held');
      expect(reaches).not.toBe('always');
      expect(surfaceNeeded).toBeGreaterThan(146_000);
    }
  });

  it('is left with the heat off', () => {
    const { sections } = judged('0:00 20 20 heat on\n30:00 160 160 heat off\n31:00 158 158\n').outlook();
    expect(sections.map(({ course }) => course)).toEqual(['heat off', 'heat off']);
  });
});

describe('once it is warm through', () => {
  const rows = '0:00 20 20 heat on\n40:00 170 170\n120:00 170 170\n';

  it('there is nothing to wait for', () => {
    const judge = judged(rows);
    expect(judge.assess().throughThickness.state).toBe('done');
    for (const { ready, reaches } of judge.outlook().sections) {
      expect(reaches).toBe('always');
      expect(ready).toEqual({ earliest: 0, likely: 0, latest: 0 });
    }
  });

  it('a break may last so long by the model, and by the present fall once it falls', () => {
    const held = judged(rows).outlook();
    expect(held.breakByTrend).toBeUndefined();
    for (const { coolsBelow } of held.sections) {
      expect(coolsBelow!.limit).toBe(120_000);
      expect(coolsBelow!.earliest).toBeGreaterThan(minutes(5));
      expect(coolsBelow!.earliest).toBeLessThan(coolsBelow!.latest!);
    }
    // Falls by 2 K a minute from 160: 20 min to 120.
    const falling = judged(`${rows}125:00 160 170 heat off\n`).outlook();
    expect(falling.breakByTrend).toMatchObject({ probe: 'T1', limit: 120_000 });
    expect(Math.abs(falling.breakByTrend!.time - minutes(20))).toBeLessThan(minutes(1));
  });
});

it('of a part that is not judged nothing is foretold', () => {
  const { sections } = judged('0:00 20 20\n30:00 120 120\n31:00 120 -\n33:00 120 -\n').outlook();
  expect(sections.map(({ part }) => part)).toEqual(['plate-a']);
});

it('looking ahead changes nothing', () => {
  const judge = judged('0:00 20 20 heat on\n30:00 120 120\n');
  const before = JSON.stringify(judge.assess());
  judge.outlook();
  expect(JSON.stringify(judge.assess())).toBe(before);
});
