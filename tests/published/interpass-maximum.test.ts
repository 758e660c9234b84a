/**
 * Maximum interpass temperatures. API RP 582:2016 table 4, ASME B31.3:2014 and the US Navy table: verified. AWS D1.1
 * and D1.8: from memory. P91: second-hand. 250 °C, S690 and S890 to S960: common practice, from memory.
 */
import { expect, test } from 'vitest';
import { citationText } from '../../server/metallurgy/citation.ts';
import { rangeText, upperLimits } from '../../server/metallurgy/upper-limits.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Part } from '../../server/weld/part.ts';
import { plainJoint, plainPart, plainProcedure } from '../support/plain-joint.ts';

const limits = (part: Partial<Part>, joint: Partial<Joint> = {}, minimum?: number) =>
  upperLimits(plainJoint({ ...joint, parts: [plainPart(part)] }), minimum).parts[0]!;
const values = (part: Partial<Part>, source: string) =>
  limits(part)
    .suggestions.filter((one) => one.source.startsWith(source))
    .map((one) => one.celsius.highest);

const byPNumber: readonly [NonNullable<Part['pNumber']>, number][] = [
  ['1', 315],
  ['3', 315],
  ['4', 315],
  ['5A', 315],
  ['5B', 315],
  ['5C', 315],
  ['6', 315],
  ['7', 260],
  ['8', 175],
  ['10H', 150],
  ['41', 150],
  ['42', 150],
  ['43', 175],
  ['44', 175],
  ['45', 175],
];
test.each(byPNumber)('API RP 582 for P-%s is %i °C', (pNumber, celsius) => {
  expect(values({ pNumber }, 'API RP 582')).toEqual([celsius]);
});

test('quenched and tempered 690 by AWS D1.1 goes by thickness: 38 mm is still the thinner band', () => {
  const kind = 'quenched and tempered 690' as const;
  expect(values({ kind, thicknessMillimetres: 38 }, 'AWS D1.1')).toEqual([205]);
  expect(values({ kind, thicknessMillimetres: 38.2 }, 'AWS D1.1')).toEqual([230]);
});

test('what is only practised says so; a range keeps both ends', () => {
  const fine = limits({ kind: 'C-Mn and fine grain' }).suggestions.find((one) => one.celsius.highest === 250)!;
  expect(citationText(fine)).toContain('common practice, from memory');
  const strong = limits({ kind: 'quenched and tempered 890 to 960' }).suggestions;
  expect(strong.map((one) => rangeText(one.celsius, 'metric'))).toContain('150 to 200 °C');
  expect(
    limits({ kind: 'quenched and tempered 690' }).suggestions.map((one) => rangeText(one.celsius, 'metric')),
  ).toContain('200 to 225 °C');
});

test('a job in Fahrenheit gets the figures that are printed in Fahrenheit', () => {
  const inch = limits(
    { pNumber: '1' },
    { units: 'inch', procedure: { ...plainProcedure, interpassMaximumCelsius: 320 } },
  );
  expect(rangeText(inch.suggestions[0]!.celsius, 'inch')).toBe('600 °F');
  expect(inch.notes[0]).toContain('608 °F is above the 600 °F');
  const navy = limits({ kind: 'quenched and tempered 690', thicknessMillimetres: 25.4 }, { units: 'inch' });
  expect(navy.suggestions.slice(0, 2).map((one) => rangeText(one.celsius, 'inch'))).toEqual(['300 °F', '400 °F']);
});

test('9Cr-1Mo-V is 300 °C, second-hand', () => {
  const [only, ...rest] = limits({ pNumber: '15E' }).suggestions;
  expect([only!.celsius.highest, only!.status, rest]).toEqual([300, 'second-hand', []]);
});

test('a suggestion never becomes the limit: it only makes notes', () => {
  const procedure = { ...plainProcedure, interpassMaximumCelsius: 260 };
  const answer = upperLimits(plainJoint({ procedure, parts: [plainPart({ kind: 'C-Mn and fine grain' })] }), 150);
  expect(answer.statedCelsius).toBe(260);
  expect(answer.parts[0]!.notes).toEqual([
    "the procedure's maximum interpass temperature of 260 °C is above the 250 °C of offshore practice (C-Mn and fine grain, S275 to S460)",
  ]);
  expect(upperLimits(plainJoint({ parts: [plainPart({ pNumber: '1' })] }), 150)).not.toHaveProperty('statedCelsius');
});

test('a minimum above a suggestion is named, also within a range', () => {
  const kind = 'quenched and tempered 890 to 960' as const;
  expect(limits({ kind }, {}, 210).notes.join()).toContain('no temperature keeps both');
  expect(limits({ kind }, {}, 160).notes.join()).toContain('above the lower end of the 150 to 200 °C');
  expect(limits({ pNumber: '1' }, {}, 315).notes).toEqual([]);
});

test('without kind and P-number they are asked for', () => {
  expect(limits({})).toMatchObject({ suggestions: [], notes: [] });
  expect(limits({}).missing[0]).toContain('its P-number');
});
