import { describe, expect, test } from 'vitest';
import { actSchema } from '../../../server/weld/entry.ts';
import { actOf, formField, freshDraft, nextPass } from '../../../web/pages/joint/act-draft.ts';
import { answerTo } from '../../../web/pages/joint/answer-sheet.tsx';
import { sentOf } from '../../../web/state/acts.ts';
import { girderScript, nozzleScript } from '../../support/station/scripts.ts';
import { momentOf } from './page-fixture.ts';

const heating = momentOf(girderScript, 12);
const between = momentOf(girderScript, 66);
const { now } = heating;

describe('a fresh form', () => {
  test('turns the heat the other way', () => {
    expect(freshDraft('heat', heating.live, 'Ada')).toMatchObject({ state: 'off' });
    expect(freshDraft('heat', between.live, 'Ada')).toMatchObject({ state: 'on' });
  });

  test('goes on from the pass before, or begins with a root by whoever acts', () => {
    expect(freshDraft('pass start', heating.live, 'Ada')).toMatchObject({ pass: '1', passKind: 'root', welder: 'Ada' });
    expect(freshDraft('pass start', between.live, 'Ada')).toMatchObject({
      pass: '2',
      passKind: 'fill',
      welder: 'Bo Example',
      side: 'A',
    });
    expect(nextPass(['1', '12', 'cap A'])).toBe('13');
  });
});

describe('the act of a form', () => {
  test.each(['heat', 'pass start', 'note', 'close', 'declare source'] as const)(
    '%s is one that the station takes',
    (kind) => {
      const draft = { ...freshDraft(kind, heating.live, 'Ada'), text: 'seen' };
      const made = actOf(kind, draft, now, 'metric');
      expect(made.ok && actSchema.safeParse(made.act).success).toBe(true);
    },
  );

  test('a contact reading in a job in inches is kept in degrees Celsius and millimetres', () => {
    const draft = {
      ...freshDraft('contact reading', heating.live, 'Ada'),
      celsius: '302',
      distance: '2',
      instrument: 'CT 3',
    };
    expect(actOf('contact reading', draft, now, 'inch')).toMatchObject({
      ok: true,
      act: { celsius: 150, place: { distanceMillimetres: 50.8 } },
    });
  });

  test('a contact reading keeps its number, place and instrument', () => {
    const draft = { ...freshDraft('contact reading', heating.live, 'Ada'), celsius: '182,5', instrument: 'CT 3' };
    expect(actOf('contact reading', draft, now, 'metric')).toEqual({
      ok: true,
      act: {
        kind: 'contact reading',
        celsius: 182.5,
        instrument: 'CT 3',
        use: 'interpass',
        place: { part: 'web plate', side: 'A', face: 'front', distanceMillimetres: 10 },
      },
    });
  });

  test('"minutes ago" is told in the station’s time; now carries none', () => {
    const draft = freshDraft('pass start', heating.live, 'Ada');
    expect(actOf('pass start', { ...draft, ago: '2,5' }, now, 'metric')).toMatchObject({
      act: { happenedAt: now - 150_000 },
    });
    const made = actOf('pass start', { ...draft, ago: '0' }, now, 'metric');
    expect(made.ok && 'happenedAt' in made.act).toBe(false);
  });

  test.each([
    ['heat', { ago: 'soon' }, 'ago'],
    ['heat', { ago: '31' }, 'ago'],
    ['heat', { ago: '-1' }, 'ago'],
    ['contact reading', { celsius: '', instrument: 'CT 3' }, 'celsius'],
    ['contact reading', { celsius: '1.500,0', instrument: 'CT 3' }, 'celsius'],
    ['contact reading', { celsius: '150', instrument: ' ' }, 'instrument'],
    ['note', { text: '  ' }, 'text'],
    ['pass start', { welder: '' }, 'welder'],
  ] as const)('%s with %o is refused at its field', (kind, change, field) => {
    const made = actOf(kind, { ...freshDraft(kind, heating.live, 'Ada'), ...change }, now, 'metric');
    expect(made.ok ? [] : Object.keys(made.problems)).toEqual([field]);
  });
});

test('an answer names what it accepts', () => {
  const asked = momentOf(nozzleScript, 30).live.assessment.requirement.warnings.filter(
    (warning) => warning.wantsAnswer,
  );
  expect(asked.map((warning) => answerTo(warning, 'thin nozzle, tried'))).toEqual([
    { kind: 'accept', subject: 'procedure below calculation', method: asked[0]!.method, reason: 'thin nozzle, tried' },
  ]);
});

test('the station’s refusals stand at the entries of the form, and every failure says what to do', () => {
  expect(formField('act.place.distanceMillimetres')).toBe('distance');
  expect(formField('act.pass')).toBe('pass');
  expect(sentOf({ kind: 'problems', problems: [{ field: 'act.pass', found: '1', allowed: 'another name' }] })).toEqual({
    kind: 'wrong',
    problems: { 'act.pass': '1 cannot be taken. Allowed: another name.' },
  });
  expect(sentOf({ kind: 'unreachable' })).toMatchObject({ why: expect.stringContaining('Send it again') });
  expect(sentOf({ kind: 'not recording', because: 'the disk is full' })).toMatchObject({
    why: expect.stringContaining('by hand'),
  });
});
