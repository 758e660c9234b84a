/**
 * Every limit that the judge compares, below, at and above it, with every quality of the reading, in every phase in which
 * it can matter: what is to come of it stands in spaces/table.txt, how each line of it is played in the other files there.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../server/judgement/assess.ts';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { advance, take } from '../../../server/judgement/fold.ts';
import { begin } from '../../../server/judgement/state.ts';
import { after, type Instant, type Milliseconds } from '../../../server/measure/quantity.ts';
import { arrival, type Input } from '../../../server/weld/entry.ts';
import { scenarioStart } from '../../support/scenario.ts';
import {
  type Course,
  conditionOf,
  type Outcome,
  placeOf,
  play,
  qualities,
  readCourses,
  type SpaceQuality,
  toldOf,
  valuesOf,
} from '../../support/spaces.ts';

const folder = new URL('./spaces/', import.meta.url);
const read = (file: string): string => readFileSync(new URL(file, folder), 'utf8');
const courses = readdirSync(folder)
  .filter((file) => file !== 'table.txt')
  .flatMap((file) => readCourses(read(file)));
const expected = new Map(
  read('table.txt')
    .split('\n')
    .filter((line) => / {2}[PF?.]{3}/.test(line))
    .map((line) => {
      const [name, ...cells] = line.trim().split(/ {2,}/);
      return [name!, cells] as const;
    }),
);

describe('small spaces', () => {
  it('the table and the courses name the same', () => {
    expect(courses.map(({ name }) => name).sort()).toEqual([...expected.keys()].sort());
  });
  for (const course of courses) {
    it(course.name, () => {
      const cells = qualities.map((quality, index) =>
        expected.get(course.name)?.[index] === '...' ? '...' : outcomes(course, quality).join(''),
      );
      expect(cells.join('  ')).toBe(expected.get(course.name)?.join('  '));
      const phase = course.facts.get('phase')?.[0];
      if (phase !== undefined) expect(phaseWhenLost(course)).toBe(phase);
    });
  }
});

const outcomes = (course: Course, quality: SpaceQuality): (Outcome | string)[] =>
  valuesOf(course).map((value) => outcome(course, value, quality));

/** A letter, or what it should not have told. */
function outcome(course: Course, value: string, quality: SpaceQuality): Outcome | string {
  const { inputs, end } = play(course, value, quality);
  const assessment = judged(inputs, end);
  const asked = conditionOf(course);
  if (asked !== undefined) {
    const condition = assessment.conditions.find(({ id }) => id === asked);
    const letter = condition === undefined ? 'P' : letters[condition.state];
    return letter !== 'P' && assessment.ready ? `ready though ${condition?.state}` : letter;
  }
  const told = toldOf(course);
  const kinds = (severity: string): string[] => [
    ...new Set(assessment.findings.filter((each) => each.severity === severity).map(({ kind }) => kind)),
  ];
  const [fails, open] = [kinds('nonconformity'), kinds('not judged')];
  const strange = [
    ...fails.filter((kind) => !told.fails.includes(kind)),
    ...open.filter((kind) => !told.open.includes(kind)),
  ];
  if (strange.length > 0) return ` ${strange.join(', ')} `;
  return verdicts[assessment.verdict];
}

const letters = { met: 'P', 'not met': 'F', 'not judged': '?' } as const;
const verdicts = { complies: 'P', 'does-not-comply': 'F', 'cannot-be-judged': '?' } as const;

/** The phase at the instant from which the place is not read well, where it reads the limit itself. */
function phaseWhenLost(course: Course): string {
  const { inputs } = play(course, valuesOf(course)[1]!, 'good');
  const at = after(scenarioStart, placeOf(course)!.from as Milliseconds);
  return judged(
    inputs.filter((input) => arrival(input) <= at),
    at,
  ).phase;
}

/** The fold alone: nothing here comes late, so that nothing has to be kept to go back to. */
function judged([opening, ...rest]: readonly Input[], end: Instant): Assessment {
  if (opening?.type !== 'station' || opening.event.kind !== 'opened') throw new Error('no opening');
  const state = begin(opening.at, opening.event);
  for (const input of rest) take(state, input);
  return assess(advance(state, end));
}
