/** Bad input: each problem names the field, what was found and what is allowed, with the likely slip named. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { type JointResult, readJoint } from '../../../server/weld/read-joint.ts';
import { plainAnalysis, plainJoint, plainProcedure } from '../../support/plain-joint.ts';

const problemsOf = (result: JointResult) => {
  if ('joint' in result) throw new Error('the joint was taken');
  return result.problems;
};
/** The plain joint as JSON, with a field at a path replaced (undefined removes it). */
function changed(path: string, value: unknown): unknown {
  const joint = structuredClone(plainJoint()) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  const holder = keys.slice(0, -1).reduce((at, key) => at[key] as Record<string, unknown>, joint);
  holder[keys.at(-1)!] = value;
  return JSON.parse(JSON.stringify(joint)) as unknown;
}
const problemAt = (path: string, value: unknown, field = path) => {
  const problem = problemsOf(readJoint(changed(path, value))).find((one) => one.field === field);
  if (problem === undefined) throw new Error(`no problem at ${field}`);
  return problem;
};
const carbon = 'parts.0.analyses.0.percent.C';

test('the plain joint is taken, as an object, as text, and as text with a byte order mark', () => {
  const text = JSON.stringify(plainJoint());
  for (const source of [JSON.parse(text) as unknown, text, `\uFEFF${text}`]) {
    expect(readJoint(source)).toEqual({ joint: plainJoint() });
  }
});

const slips: readonly [string, string, unknown, string, string][] = [
  ['thickness 0', 'parts.0.thicknessMillimetres', 0, 'the number 0', 'a number above 0, at most 2000'],
  ['negative heat input', 'heatInput.kilojoulesPerMillimetre', -1, 'the number -1', 'a number above 0, at most 50'],
  ['number as text', 'parts.0.thicknessMillimetres', '80 mm', 'the text "80 mm"', 'without its unit: 80'],
  ['decimal comma', carbon, '0,18', 'the text "0,18"', 'with a decimal point: 0.18'],
  ['a bound as certificates print it', carbon, '<0.005', 'the text "<0.005"', '{"atMost": 0.005}'],
  ['carbon 18 instead of 0.18', carbon, 18, 'the number 18', 'hundredths of a percent, this is 0.18 %'],
  ['ppm typed as percent', 'parts.0.analyses.0.percent.B', 20, 'the number 20', 'ppm, this is 0.002 %'],
  ['a bound that is a slip', carbon, { atMost: 20 }, 'an object with atMost', 'this is 0.2 %'],
  ['phosphorus in thousandths', 'parts.0.analyses.0.percent.P', 15, 'the number 15', 'this is 0.015 %'],
  ['negative content', carbon, -0.1, 'the number -0.1', 'a mass fraction cannot be negative'],
  ['unknown hydrogen class', 'consumable.hydrogen', { class: 'H7' }, 'the text "H7"', 'one of "H2", "H4", "H5"'],
  ['hydrogen left empty', 'consumable.hydrogen', '', 'empty text', '"not stated"'],
  ['process as a number', 'process', 135, 'the number 135', '"135"'],
  ['path in the id', 'id', '../x', 'the text "../x"', 'small letters, digits and hyphens'],
  ['title of blanks', 'title', '   ', 'the text "   "', 'text of 1 to 120 characters'],
  ['no parts', 'parts', [], 'a list of 0 entries', 'a list of 1 to 8 entries'],
  ['missing heating', 'heating', undefined, 'nothing', 'means, face, whileWelding'],
  ['not a number', 'parts.0.thicknessMillimetres', null, 'null', 'a number above 0'],
  ['certificate hash', 'parts.0.analyses.0.document', 'abc', 'the text "abc"', 'SHA-256 as 64 digits'],
];
for (const [name, path, value, found, allowed] of slips) {
  test(`${name}: the field, what was found, what is allowed`, () => {
    const field = path === 'consumable.hydrogen' && typeof value === 'object' ? `${path}.class` : path;
    const problem = problemAt(path, value, field);
    expect(problem.found).toBe(found);
    expect(problem.allowed).toContain(allowed);
  });
}

test('contents that add up to more than the whole are caught', () => {
  const problem = problemAt('parts.0.analyses.0.percent', { Ni: 60, Cu: 45 });
  expect(problem.allowed).toContain('these make 105 %');
});

test('a handheld X-ray is refused for carbon, boron and nitrogen, and taken without them', () => {
  const xray = { origin: 'handheld X-ray', percent: { C: 0.2, B: 0.001, Mn: 1.4 } };
  const fields = problemsOf(readJoint(changed('parts.0.analyses', [xray]))).map((one) => one.field);
  expect(fields).toEqual(['parts.0.analyses.0.percent.C', 'parts.0.analyses.0.percent.B']);
  const taken = { origin: 'handheld X-ray', percent: { C: 'not reported', Mn: 1.4 } };
  expect(readJoint(changed('parts.0.analyses', [plainAnalysis, taken]))).toHaveProperty('joint');
});

test('an unknown field is refused, and the one that is meant is named', () => {
  const joint = { ...plainJoint(), drawnig: 'D-1' };
  expect(problemsOf(readJoint(joint))).toEqual([
    {
      field: 'drawnig',
      found: 'a field that is not known, holding the text "D-1"',
      allowed: expect.stringMatching(/perhaps "drawing" is meant$/) as string,
    },
  ]);
  const thickness = problemAt('parts.0.thickness', 80);
  expect(thickness.allowed).toContain('perhaps "thicknessMillimetres" is meant');
  // Cobalt is no misspelling of carbon; a small letter is one of the element.
  expect(problemAt('parts.0.analyses.0.percent.Co', 0.1).allowed).not.toContain('perhaps');
  expect(problemAt('parts.0.analyses.0.percent.mn', 1.4).allowed).toContain('perhaps "Mn" is meant');
});

test('a choice is answered for the branch that was meant', () => {
  const fields = problemsOf(readJoint(changed('heatInput', { volts: 28, amperes: 250 }))).map((one) => one.field);
  expect(fields).toEqual(['heatInput.millimetresPerSecond']);
  expect(problemAt('heatInput', {}).allowed).toContain('kilojoulesPerMillimetre');
});

const probe = (id: string, channel: number, changes: object = {}) => ({
  id,
  board: 'board-1',
  channel,
  thermocouple: 'K',
  use: 'zone',
  place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 },
  ...changes,
});

test('probes: one id, one wire, a part that exists, its side, and a place where the use needs one', () => {
  const joint = {
    ...plainJoint(),
    parts: [{ ...plainJoint().parts[0]!, side: 'B' }],
    probes: [
      probe('p1', 1),
      probe('p1', 1),
      probe('p3', 3, { place: { part: 'flange', side: 'B', face: 'front', distanceMillimetres: 75 } }),
      { ...probe('p4', 4), place: undefined },
    ],
  };
  const withoutPlace = problemsOf(readJoint(JSON.parse(JSON.stringify(joint)) as unknown));
  expect(withoutPlace.map((one) => one.field)).toContain('probes.3.place');
  const fields = problemsOf(readJoint({ ...joint, probes: joint.probes.slice(0, 3) }));
  expect(fields.map((one) => one.field).sort()).toEqual([
    'probes.0.place.side',
    'probes.1.channel',
    'probes.1.id',
    'probes.1.place.side',
    'probes.2.place.part',
  ]);
  expect(fields.find((one) => one.field === 'probes.1.channel')!.allowed).toContain('already carries probe p1');
  expect(fields.find((one) => one.field === 'probes.2.place.part')!.allowed).toBe(
    'the id of a part of this joint: plate',
  );
});

test('limits of a procedure must be in order', () => {
  const wrong = (changes: object) =>
    problemsOf(readJoint({ ...plainJoint(), procedure: { ...plainProcedure, ...changes } })).map((one) => one.field);
  expect(wrong({ interpassMaximumCelsius: 140 })).toEqual(['procedure.interpassMaximumCelsius']);
  expect(wrong({ maintenanceMinimumCelsius: 260 })).toEqual(['procedure.interpassMaximumCelsius']);
  expect(wrong({ highestCelsius: 200 })).toEqual(['procedure.highestCelsius']);
});

test('a window of cooling times must be in order', () => {
  const read = (minimum: number, maximum: number) =>
    readJoint({ ...plainJoint(), coolingSeconds: { minimum, maximum } });
  expect(problemsOf(read(25, 10)).map((one) => [one.field, one.allowed])).toEqual([
    ['coolingSeconds.maximum', 'at least 25 s, the shortest cooling time; one of the two is mistyped'],
  ]);
  expect(read(10, 10)).toHaveProperty('joint');
});

test('zone places required cannot be more than are fitted', () => {
  const joint = {
    ...plainJoint(),
    probes: [probe('p1', 1), probe('p2', 2)],
    procedure: { ...plainProcedure, zonePlacesRequired: 3 },
  };
  expect(problemsOf(readJoint(joint))[0]).toMatchObject({
    field: 'procedure.zonePlacesRequired',
    found: 'the number 3',
  });
});

test('text that is no joint: not JSON, empty, too long, a list, a field named like a prototype', () => {
  const whole = (source: unknown) => problemsOf(readJoint(source))[0]!;
  expect(whole('{"id": 1,}').found).toContain('text that is not JSON');
  expect(whole('  ').found).toBe('an empty file');
  expect(whole('x'.repeat(limits.bodyMaximum + 1)).found).toBe(`${limits.bodyMaximum + 1} characters`);
  expect(whole('[]').field).toBe('(whole)');
  expect(whole(undefined).found).toBe('nothing');
  const fields = problemsOf(readJoint('{"__proto__": 1}')).map((one) => one.field);
  expect(fields).toContain('__proto__');
});

test('every joint of demo-data is taken', () => {
  const folder = new URL('../../../demo-data/', import.meta.url);
  const files = readdirSync(folder).filter(
    (name) => name.endsWith('.json') && readFileSync(new URL(name, folder), 'utf8').includes('"preheat joint 1"'),
  );
  expect(files.length).toBeGreaterThanOrEqual(7);
  for (const file of files) expect(readJoint(readFileSync(new URL(file, folder), 'utf8'))).toHaveProperty('joint');
});
