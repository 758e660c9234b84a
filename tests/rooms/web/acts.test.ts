import { describe, expect, test } from 'vitest';
import { actSchema } from '../../../server/weld/entry.ts';
import { actOf, formField, freshDraft } from '../../../web/pages/joint/act-draft.ts';
import { answerTo } from '../../../web/pages/joint/answer-sheet.tsx';
import { nextPass } from '../../../web/pages/joint/pass-draft.ts';
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
      const made = actOf(kind, draft, now, heating.live.joint);
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
    expect(actOf('contact reading', draft, now, { ...heating.live.joint, units: 'inch' })).toMatchObject({
      ok: true,
      act: { celsius: 150, place: { distanceMillimetres: 50.8 } },
    });
  });

  test('a contact reading keeps its number, place and instrument', () => {
    const draft = { ...freshDraft('contact reading', heating.live, 'Ada'), celsius: '182,5', instrument: 'CT 3' };
    expect(actOf('contact reading', draft, now, heating.live.joint)).toEqual({
      ok: true,
      act: {
        kind: 'contact reading',
        celsius: 182.5,
        instrument: 'CT 3',
        instrumentKind: 'contact thermometer',
        use: 'interpass',
        place: { part: 'web plate', side: 'A', face: 'front', distanceMillimetres: 10 },
      },
    });
  });

  test('"minutes ago" is told in the station’s time; now carries none', () => {
    const draft = freshDraft('pass start', heating.live, 'Ada');
    expect(actOf('pass start', { ...draft, ago: '2,5' }, now, heating.live.joint)).toMatchObject({
      act: { happenedAt: now - 150_000 },
    });
    // A time of day is that of the last day, by the clock of whoever looks.
    const local = new Date(now - 45 * 60_000);
    const clock = `${local.getHours()}:${String(local.getMinutes()).padStart(2, '0')}`;
    expect(actOf('heat', { ...draft, ago: clock }, now, heating.live.joint)).toMatchObject({
      act: { happenedAt: local.setSeconds(0, 0) },
    });
    const made = actOf('pass start', { ...draft, ago: '0' }, now, heating.live.joint);
    expect(made.ok && 'happenedAt' in made.act).toBe(false);
  });

  test.each([
    ['heat', { ago: 'soon' }, 'ago'],
    ['heat', { ago: '1441' }, 'ago'],
    ['heat', { ago: '25:10' }, 'ago'],
    ['heat', { ago: '-1' }, 'ago'],
    ['contact reading', { celsius: '', instrument: 'CT 3' }, 'celsius'],
    ['contact reading', { celsius: '1.500,0', instrument: 'CT 3' }, 'celsius'],
    ['contact reading', { celsius: '150', instrument: ' ' }, 'instrument'],
    ['note', { text: '  ' }, 'text'],
    ['pass start', { welder: '' }, 'welder'],
  ] as const)('%s with %o is refused at its field', (kind, change, field) => {
    const made = actOf(kind, { ...freshDraft(kind, heating.live, 'Ada'), ...change }, now, heating.live.joint);
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

describe('a reading by hand', () => {
  const { joint } = heating.live;
  const draft = { ...freshDraft('contact reading', heating.live, 'Ada'), celsius: '150', instrument: 'CR-150' };

  test('beside a probe takes the place of the probe', () => {
    const probe = joint.probes.find(({ place }) => place !== undefined)!;
    const made = actOf('contact reading', { ...draft, probe: probe.id, use: 'zone' }, now, joint);
    expect(made).toMatchObject({ ok: true, act: { probe: probe.id, place: probe.place } });
  });

  test('with a crayon asks whether it melted, with a pyrometer what is set on it', () => {
    const crayon = { ...draft, instrumentKind: 'crayon' };
    expect(actOf('contact reading', crayon, now, joint)).toMatchObject({
      ok: false,
      problems: { shows: expect.stringContaining('melt') },
    });
    expect(actOf('contact reading', { ...crayon, shows: 'below' }, now, joint)).toMatchObject({
      ok: true,
      act: { instrumentKind: 'crayon', shows: 'below' },
    });
    const pyrometer = { ...draft, instrumentKind: 'pyrometer' };
    expect(actOf('contact reading', pyrometer, now, joint)).toMatchObject({
      ok: false,
      problems: { emissivity: expect.stringContaining('set') },
    });
    expect(actOf('contact reading', { ...pyrometer, emissivity: '0,85' }, now, joint)).toMatchObject({
      ok: true,
      act: { emissivity: 0.85 },
    });
  });

  test('begins with the one instrument of the register that is held on by hand', () => {
    const instruments = [
      { id: 'B1', kind: 'board' as const, board: 'b1' },
      { id: 'CT-1', kind: 'contact thermometer' as const },
    ];
    const live = { ...heating.live, joint: { ...joint, instruments } };
    expect(freshDraft('contact reading', live, 'Ada')).toMatchObject({
      instrument: 'CT-1',
      instrumentKind: 'contact thermometer',
    });
  });

  test('beside a probe that was asked for is made of three taps: open, value, record', () => {
    const probe = joint.probes.find(({ use }) => use === 'zone')!;
    const live = {
      ...heating.live,
      joint: { ...joint, instruments: [{ id: 'CT-1', kind: 'contact thermometer' as const }] },
      assessment: { ...heating.live.assessment, twinAsked: { probe: probe.id } },
    };
    const touched = { ...freshDraft('twin reading', live, 'Ada'), celsius: '152' };
    expect(actOf('twin reading', touched, now, live.joint)).toEqual({
      ok: true,
      act: {
        kind: 'contact reading',
        celsius: 152,
        instrument: 'CT-1',
        instrumentKind: 'contact thermometer',
        probe: probe.id,
        use: 'zone',
        place: probe.place,
      },
    });
  });
});
