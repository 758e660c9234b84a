/** What the numbers of a check at ambient say of each probe. */
import { describe, expect, it } from 'vitest';
import { ambientOutcomes, ambientRules } from '../../../server/judgement/ambient/touch.ts';
import { type AmbientCheck, type AmbientTouch, ambientCheckSchema } from '../../../server/weld/ambient-check.ts';

const rest = (celsius: Readonly<Record<string, number | undefined>>): AmbientCheck['rest'] =>
  Object.entries(celsius).map(([probe, each]) => ({ probe, ...(each === undefined ? {} : { celsius: each }) }));

/** From so many degrees to so many, each probe that is named. */
const touch = (
  probe: string,
  readings: Readonly<Record<string, readonly [number, number]>>,
  way: AmbientTouch['way'] = 'warmed',
): AmbientTouch => ({
  probe,
  way,
  from: 1,
  until: 2,
  readings: Object.entries(readings).map(([each, [fromCelsius, toCelsius]]) => ({
    probe: each,
    fromCelsius,
    toCelsius,
  })),
});

const found = (check: Omit<AmbientCheck, 'airCelsius'>): Record<string, string> =>
  Object.fromEntries(
    ambientOutcomes(ambientCheckSchema.parse({ airCelsius: 20, ...check })).probes.map(({ probe, outcome, other }) => [
      probe,
      other === undefined ? outcome : `${outcome}: ${other}`,
    ]),
  );

const two = rest({ T1: 20, T2: 20 });

describe('a touch', () => {
  it.each([
    ['warmed, rises', 'warmed', 22, 'in order'],
    ['warmed, falls', 'warmed', 18, 'moves the wrong way'],
    ['cooled, falls', 'cooled', 18, 'in order'],
    ['cooled, rises', 'cooled', 22, 'moves the wrong way'],
    ['less than a hand does', 'warmed', 20.9, 'does not move'],
    ['as much as a hand does', 'warmed', 21, 'in order'],
  ] as const)('%s', (_what, way, to, outcome) => {
    expect(found({ rest: two, touches: [touch('T1', { T1: [20, to], T2: [20, 20.2] }, way)] }).T1).toBe(outcome);
  });

  it('that moves another probe names it, and two that move each other have changed places', () => {
    const one = touch('T1', { T1: [20, 20.1], T2: [20, 22] });
    expect(found({ rest: two, touches: [one] }).T1).toBe('another moves: T2');
    const back = touch('T2', { T1: [20, 22], T2: [20, 20.1] });
    expect(found({ rest: two, touches: [one, back] })).toEqual({ T1: 'changed places: T2', T2: 'changed places: T1' });
  });

  it('that moves several says so, unless one moves at least twice as far', () => {
    const both = (own: number, other: number) =>
      found({ rest: two, touches: [touch('T1', { T1: [20, 20 + own], T2: [20, 20 + other] })] }).T1;
    expect(both(2, 1.1)).toBe('several move: T2');
    expect(both(1.1, 2)).toBe('several move: T2');
    expect(both(2.2, 1.1)).toBe('in order');
    expect(both(1.1, 2.2)).toBe('another moves: T2');
  });

  it('is not disturbed by a tip that goes back to rest after its own', () => {
    const first = touch('T1', { T1: [20, 23] });
    const second = touch('T2', { T1: [23, 20.1], T2: [20, 21.6] });
    expect(found({ rest: two, touches: [first, second] })).toEqual({ T1: 'in order', T2: 'in order' });
    // Nor by one that goes beyond, since its rest has drifted: crossed wires drift with the terminals.
    const drifted = touch('T2', { T1: [23, 16.9], T2: [20, 21.6] });
    expect(found({ rest: two, touches: [first, drifted] }).T2).toBe('in order');
    // Moved on from where it was, or from rest, it is a move.
    const on = touch('T2', { T1: [23, 26], T2: [20, 20.1] });
    expect(found({ rest: two, touches: [first, on] }).T2).toBe('another moves: T1');
    const cooled = touch('T2', { T1: [20.4, 18], T2: [20, 20.1] }, 'cooled');
    expect(found({ rest: two, touches: [first, cooled] }).T2).toBe('another moves: T1');
    // Its own it is in any case: warmed before, cooled now.
    const turned = touch('T1', { T1: [21.5, 17.5] }, 'cooled');
    expect(found({ rest: two, touches: [turned] }).T1).toBe('in order');
  });

  it('counts as it was done last', () => {
    const touches = [touch('T1', { T1: [20, 20.1] }), touch('T1', { T1: [20, 21.5] })];
    expect(found({ rest: two, touches }).T1).toBe('in order');
  });
});

describe('at rest', () => {
  const warm = (probes: AmbientCheck['rest']): AmbientTouch[] =>
    probes.flatMap(({ probe, celsius }) =>
      celsius === undefined ? [] : [touch(probe, { [probe]: [celsius, celsius + 2] })],
    );

  it('a probe lies apart beyond what two wires of class 2 may, and only then', () => {
    const beside = (celsius: number): string | undefined => {
      const probes = rest({ T1: 20, T2: 20, T3: celsius });
      return found({ rest: probes, touches: warm(probes) }).T3;
    };
    expect(beside(20 + ambientRules.apartMillikelvin / 1000)).toBe('in order');
    expect(beside(20.001 + ambientRules.apartMillikelvin / 1000)).toBe('off at rest');
    expect(beside(16)).toBe('off at rest');
  });

  it('all of them together lie apart from the air', () => {
    const check = (celsius: number) =>
      ambientOutcomes({ airCelsius: 20, rest: rest({ T1: celsius, T2: celsius }), touches: [] });
    expect(check(25)).toMatchObject({ isOffAir: false, fromAir: 5000, spread: 0 });
    expect(check(25.1)).toMatchObject({ isOffAir: true });
    expect(check(14.9)).toMatchObject({ isOffAir: true, fromAir: -5100 });
  });

  it('a probe without a reading, and one that nobody touched, are told as that', () => {
    expect(found({ rest: rest({ T1: 20, T2: undefined }), touches: [] })).toEqual({
      T1: 'not touched',
      T2: 'no reading',
    });
    expect(ambientOutcomes({ airCelsius: 20, rest: rest({ T1: undefined }), touches: [] })).toEqual({
      probes: [{ probe: 'T1', outcome: 'no reading' }],
      isOffAir: false,
    });
  });
});
