import { describe, expect, test } from 'vitest';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { heatingSchema, jointSchema } from '../../../server/weld/joint.ts';
import { partSchema } from '../../../server/weld/part.ts';
import { procedureSchema } from '../../../server/weld/procedure.ts';
import { candidateOf, metalCandidateOf, previewOf } from '../../../web/pages/new-joint/candidate.ts';
import type { JointDraft } from '../../../web/pages/new-joint/draft.ts';
import { draftOf } from '../../../web/pages/new-joint/draft-of.ts';
import { draftFrom, emptyDraft, idOf, isDraft } from '../../../web/pages/new-joint/empty-draft.ts';
import { fieldWords } from '../../../web/pages/new-joint/field-words.ts';
import { nextProbe, zoneDistance } from '../../../web/pages/new-joint/suggest.ts';
import { bracket, girder, nozzle } from '../../support/station/joints.ts';
import { everyField } from './every-field.ts';

const withPart = (draft: JointDraft, part: Partial<JointDraft['parts'][number]>): JointDraft => ({
  ...draft,
  parts: [{ ...draft.parts[0]!, ...part }, ...draft.parts.slice(1)],
});
const withCarbon = (how: 'reported' | 'at most' | 'not reported', text: string): JointDraft => {
  const draft = draftOf(girder);
  const [analysis] = draft.parts[0]!.analyses;
  return withPart(draft, { analyses: [{ ...analysis!, contents: { ...analysis!.contents, C: { how, text } } }] });
};
const problemsOf = (draft: JointDraft) => {
  const candidate = candidateOf(draft);
  return candidate.ok ? {} : candidate.problems;
};

const { boundRevision: _, ...byHand } = everyField;
test.each([
  girder,
  nozzle,
  bracket,
  everyField,
  { ...everyField, units: 'inch' as const },
  byHand,
  { ...byHand, units: 'inch' as const },
])('a joint becomes a draft and the same joint again: $id, units $units', (joint) => {
  const draft: unknown = JSON.parse(JSON.stringify(draftOf(joint)));
  expect(isDraft(draft)).toBe(true);
  expect(candidateOf(draft as JointDraft)).toEqual({ ok: true, joint });
});

test('the joint with every field has every field of a joint file', () => {
  expect(Object.keys(everyField).sort()).toEqual(Object.keys(jointSchema.shape).sort());
  expect(Object.keys(everyField.parts[0]!).sort()).toEqual(Object.keys(partSchema.shape).sort());
  expect(Object.keys(everyField.heating).sort()).toEqual(Object.keys(heatingSchema.shape).sort());
  expect(Object.keys(everyField.procedure!).sort()).toEqual(Object.keys(procedureSchema.shape).sort());
});

const heats: readonly (readonly [string, Joint['heatInput']])[] = [
  ['not stated', 'not stated'],
  ['kJ/mm', { kilojoulesPerMillimetre: 1.6 }],
  ['arc', { volts: 28, amperes: 260, millimetresPerSecond: 6 }],
  ['waveform energy', { instantaneousJoules: 160_000, beadMillimetres: 120 }],
  ['waveform power', { instantaneousWatts: 7280, millimetresPerSecond: 6 }],
];
test.each(heats)('a heat input in the form "%s" comes back as it was', (_, heatInput) => {
  for (const units of ['metric', 'inch'] as const) {
    const joint = { ...girder, units, heatInput };
    expect(candidateOf(draftOf(joint))).toEqual({ ok: true, joint });
  }
});

test('a field of the joint that the form does not know goes through a correction unharmed', () => {
  const joint = { ...girder, somethingLater: { value: 7 } } as typeof girder;
  expect(draftOf(joint).carried).toEqual({ somethingLater: { value: 7 } });
  const { ok } = candidateOf(draftOf(joint));
  expect(ok, 'it reaches the schema, which is the one to refuse it').toBe(false);
});

test('a draft of the form before this one is still read, with nothing invented', () => {
  const { units, contact, codeSet, chartReadings, carried, ...old } = draftOf(girder);
  const { joules, bead, watts, ...heatInput } = old.heatInput;
  const parts = old.parts.map(({ id, side, grade, thickness, analyses }) => ({ id, side, grade, thickness, analyses }));
  const { means, face, whileWelding } = old.heating;
  const { throughHold, decisionRule, guardFactor, calibration, twinHours, ambientCheck, ...procedure } = old.procedure;
  const probes = old.probes.map(({ wire, extension, attachment, ...probe }) => probe);
  const kept: unknown = JSON.parse(
    JSON.stringify({
      ...old,
      format: 'joint draft 1',
      heatInput,
      parts,
      heating: { means, face, whileWelding },
      procedure,
      probes,
    }),
  );
  if (!isDraft(kept)) throw new Error('it must be known as a draft');
  expect(candidateOf(draftFrom(kept))).toEqual({ ok: true, joint: girder });
  expect(isDraft({ format: 'joint draft 9' })).toBe(false);
});

describe('an element', () => {
  test('not reported is not zero, and not the same as not entered', () => {
    const content = (draft: JointDraft) => {
      const candidate = candidateOf(draft);
      return candidate.ok ? candidate.joint.parts[0]!.analyses[0]!.percent.C : candidate.problems;
    };
    expect(content(withCarbon('not reported', ''))).toBe('not reported');
    expect(content(withCarbon('reported', ''))).toBeUndefined();
    expect(content(withCarbon('reported', '0'))).toBe(0);
    expect(content(withCarbon('reported', '0,17'))).toBe(0.17);
    expect(content(withCarbon('at most', '0.2'))).toEqual({ atMost: 0.2 });
  });

  test('that is missing keeps the requirement from a number, and a zero does not pass for it', () => {
    const answer = (draft: JointDraft) => {
      const candidate = metalCandidateOf({ ...draft, procedure: emptyDraft.procedure });
      if (!candidate.ok) throw new Error('the draft must be whole for this test');
      return requirement(candidate.joint, []).methods.find((method) => method.part === 'web plate')!;
    };
    expect(answer(withCarbon('not reported', '')).missing.join()).toContain('C');
    expect(answer(withCarbon('reported', '0.17')).computedCelsius).toBeGreaterThan(100);
  });

  test('that is not a number is told at its field', () => {
    expect(problemsOf(withCarbon('reported', '0.1.7'))).toEqual({
      'parts.0.analyses.0.percent.C': '"0.1.7" is not a number. Write it like 12.5, without a thousands sign.',
    });
  });
});

test('heated band, air and set point may stay empty; one that cannot be is told at its field', () => {
  const draft = draftOf(girder);
  expect(draft.heating).toMatchObject({ halfWidth: '', air: '', setPoint: '' });
  const heating = { ...draft.heating, halfWidth: '0', air: '-60', setPoint: 'hot' };
  expect(problemsOf({ ...draft, heating })).toEqual({
    'heating.halfWidthMillimetres': expect.stringContaining('above 0'),
    'heating.airCelsius': expect.stringContaining('from -50 to 60'),
    'heating.setPointCelsius': '"hot" is not a number. Write it like 12.5, without a thousands sign.',
  });
});

test('a heater that reaches 12 1/2 in and air of 14 °F are 317.5 mm and -10 °C', () => {
  const draft = draftOf({ ...girder, units: 'inch' });
  const candidate = candidateOf({ ...draft, heating: { ...draft.heating, halfWidth: '12 1/2', air: '14' } });
  // 25.4 mm to the inch, and 0 °C at 32 °F with 1.8 °F to the kelvin, by definition.
  expect(candidate).toMatchObject({ joint: { heating: { halfWidthMillimetres: 317.5, airCelsius: -10 } } });
});

test('an empty form asks for what is needed, field by field, and for nothing that may stay empty', () => {
  expect(Object.keys(problemsOf(emptyDraft)).sort()).toEqual([
    'id',
    'parts.0.thicknessMillimetres',
    'parts.1.thicknessMillimetres',
    'title',
  ]);
});

test('the requirement does not wait for title and probes, but for the parts', () => {
  const draft = { ...draftOf(girder), title: '', id: '', probes: [{ ...draftOf(girder).probes[0]!, channel: '' }] };
  expect(candidateOf(draft).ok).toBe(false);
  expect(metalCandidateOf(draft).ok).toBe(true);
  // The board of an arc signal is one of the probes, which are not looked at here.
  expect(metalCandidateOf({ ...draft, arc: { board: 'board-away', input: '1' } }).ok).toBe(true);
  expect(metalCandidateOf(withPart(draft, { thickness: '' }))).toEqual({
    ok: false,
    problems: { 'parts.0.thicknessMillimetres': 'Needed: a number.' },
  });
});

test('what the schema refuses is told with what was found and what is allowed', () => {
  expect(problemsOf(withPart(draftOf(girder), { thickness: '-3' }))['parts.0.thicknessMillimetres']).toMatch(
    /^The number -3 is not allowed here: .*above 0/,
  );
  const twice = draftOf(girder);
  const probes = [twice.probes[0]!, { ...twice.probes[1]!, channel: '1' }];
  expect(Object.keys(problemsOf({ ...twice, probes }))).toEqual(['probes.1.channel']);
});

test('a group of which a part is filled asks for the rest', () => {
  const draft = {
    ...draftOf(girder),
    postHeating: { temperature: '250', maximum: '', hours: '', counted: '' },
    cooling: { minimum: '', maximum: '15' },
  };
  expect(problemsOf(draft)).toEqual({
    'postHeating.hours': 'Needed: a number.',
    'coolingSeconds.minimum': 'Needed: a number.',
  });
});

test('likely slips are told at the field: carbon of 18, ppm typed as percent, a sum above the whole', () => {
  expect(problemsOf(withCarbon('reported', '18'))).toEqual({
    'parts.0.analyses.0.percent.C': expect.stringContaining('in hundredths of a percent, this is 0.18 %'),
  });
  const draft = draftOf(girder);
  const [analysis] = draft.parts[0]!.analyses;
  const contents = { ...analysis!.contents, N: { how: 'reported', text: '60' } } as const;
  expect(problemsOf(withPart(draft, { analyses: [{ ...analysis!, contents }] }))).toEqual({
    'parts.0.analyses.0.percent.N': expect.stringContaining('in ppm, this is 0.006 %'),
  });
  const whole = { Ni: { how: 'reported', text: '60' }, Cu: { how: 'reported', text: '50' } } as const;
  expect(problemsOf(withPart(draft, { analyses: [{ ...analysis!, contents: whole }] }))).toEqual({
    'parts.0.analyses.0.percent': expect.stringContaining('110 %'),
  });
});

test('the drawing shows the probes that are whole already', () => {
  const draft = draftOf(girder);
  const half = { ...draft, probes: [draft.probes[0]!, { ...draft.probes[1]!, distance: 'x' }] };
  expect(previewOf(half)?.probes.map(({ id }) => id)).toEqual(['A1']);
  expect(previewOf(withPart(draft, { thickness: '' }))).toBeUndefined();
});

test('a new probe begins on the next channel of the board, on the other side, at the distance for the thickness', () => {
  const draft = { ...draftOf(girder), probes: [draftOf(girder).probes[0]!] };
  expect(nextProbe(draft, [])).toMatchObject({
    id: 'T2',
    board: 'board-1',
    channel: '2',
    side: 'B',
    part: 'flange plate',
    distance: '75',
  });
  expect(nextProbe({ ...draft, probes: [] }, ['board-9'])).toMatchObject({
    id: 'T1',
    board: 'board-9',
    channel: '1',
    side: 'A',
  });
});

// ISO 13916: A = 4 t, at most 50 mm, up to 50 mm thick; 75 mm above.
test.each([
  ['10', '40'],
  ['12,5', '50'],
  ['50', '50'],
  ['50.1', '75'],
  ['', ''],
])('zone distance for %s mm', (thickness, distance) => {
  expect(zoneDistance(thickness)).toBe(distance);
});

test('an id is made of the title', () => {
  expect(idOf('  Träger 7, unterer Flansch! ')).toBe('trager-7-unterer-flansch');
  expect(idOf('x'.repeat(80))).toHaveLength(60);
});

test('a path is told in words', () => {
  expect(fieldWords('parts.0.thicknessMillimetres')).toBe('Part 1, thickness');
  expect(fieldWords('probes.2.place.distanceMillimetres')).toBe('Probe 3, place distance');
  expect(fieldWords('parts.1.analyses.0.percent.C')).toBe('Part 2, analysis 1, C');
  expect(fieldWords('title')).toBe('Title');
  expect(fieldWords('heatInput.kilojoulesPerMillimetre')).toBe('Heat input');
  expect(fieldWords('heatInput.millimetresPerSecond')).toBe('Heat input travel speed');
  expect(fieldWords('chartReadings.0.preheatMinimumCelsius')).toBe('Chart reading 1, preheat minimum');
  expect(fieldWords('heating.halfWidthMillimetres')).toBe('Heating half-width');
  expect(fieldWords('heating.airCelsius')).toBe('Heating lowest air temperature');
  expect(fieldWords('parts.0.farSide')).toBe('Part 1, far side');
  expect(fieldWords('parts.0.yieldMegapascals')).toBe('Part 1, yield');
});
