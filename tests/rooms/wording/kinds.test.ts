/** Every kind that the judge can name has words, and the words keep the house's promises. */
import { describe, expect, it } from 'vitest';
import { alarmRules } from '../../../server/judgement/alarm-rules.ts';
import type { Alarm, AlarmKind, Finding } from '../../../server/judgement/assessment.ts';
import type { Condition, ConditionId } from '../../../server/judgement/condition.ts';
import type { FindingKind } from '../../../server/judgement/finding-kind.ts';
import { severities } from '../../../server/judgement/rules.ts';
import type { SoakStatus } from '../../../server/judgement/soak-status.ts';
import { milliCelsius, millikelvin, minutes, seconds } from '../../../server/measure/quantity.ts';
import { sourceKinds } from '../../../server/weld/entry.ts';
import { qualities } from '../../../server/weld/scan.ts';
import { alarmText } from '../../../server/wording/alarm.ts';
import { conditionText } from '../../../server/wording/condition.ts';
import { findingSpan, findingText } from '../../../server/wording/finding.ts';
import { listText } from '../../../server/wording/list.ts';
import { minimumText } from '../../../server/wording/requirement.ts';
import { soakText } from '../../../server/wording/soak.ts';
import { scopeText, verdictText } from '../../../server/wording/verdict.ts';
import { conditionName, placeText, qualityText, sourceMark, sourceText } from '../../../server/wording/words.ts';
import { assessment, at } from './sample-assessment.ts';

const findingKinds = Object.keys(severities) as FindingKind[];
const finding = (kind: FindingKind, more: Partial<Finding> = {}): Finding => ({
  key: `${kind}/1`,
  kind,
  severity: severities[kind],
  from: at,
  knownAt: at,
  ...more,
});

describe('findings', () => {
  it.each(findingKinds)('%s: what, why and what to do first, with and without numbers', (kind) => {
    for (const more of [{}, { probe: 'T4', pass: '3' }]) {
      const { what, why, first } = findingText(finding(kind, more), 'metric');
      expect(what).toMatch(/^[A-Z].*[^.]$/);
      expect(why).toMatch(/^[A-Z].*\.$/);
      expect(first).toMatch(/^[A-Z].*\.$/);
      expect(`${what} ${why} ${first}`).not.toMatch(/undefined|NaN|\bsafe\b/i);
    }
  });

  it('carry the number beside its limit, on the right side of it', () => {
    const cold = finding('below minimum at pass start', {
      probe: 'T4',
      pass: '3',
      value: milliCelsius(149.96),
      limit: milliCelsius(150),
    });
    expect(findingText(cold, 'metric').what).toBe(
      'Below the minimum preheat at T4 when pass 3 began: 149.9 °C of 150 °C',
    );
    const short = finding('soak not met', { pass: '1', value: seconds(479.9), limit: minutes(8) });
    expect(findingText(short, 'metric').what).toBe('Soak not complete when pass 1 began: 7 min 59 s of 8 min');
    const uneven = finding('uneven', { pass: '1', value: millikelvin(30.02), limit: millikelvin(30) });
    expect(findingText(uneven, 'metric').what).toBe(
      'Zone probes too far apart when pass 1 began: 30.1 K, at most 30 K',
    );
    const hot = finding('interpass above maximum', {
      probe: 'T9',
      pass: '2',
      value: milliCelsius(268),
      limit: milliCelsius(250),
    });
    expect(findingText(hot, 'metric').what).toBe(
      'Interpass above the maximum at T9 when pass 2 began: 268 °C, at most 250 °C',
    );
  });

  it('say when they held', () => {
    const later = (at + 130_000) as typeof at;
    expect(findingSpan({ from: at }, 'UTC')).toBe('since 11:06:40');
    expect(findingSpan({ from: at, to: later }, 'UTC')).toBe('11:06:40 to 11:08:50');
    expect(findingSpan({ from: at, to: at }, 'UTC')).toBe('11:06:40');
  });
});

describe('conditions', () => {
  const reasons: readonly Condition['reason'][] = [
    'ok',
    'below minimum',
    'no trusted fresh reading',
    'no minimum stated',
    'no zone probe',
    'side without zone probe at 75 mm',
    'heat is on',
    'waiting after heat off',
    'holding',
    'no hold stated',
    'face still rising',
    'heat state not entered',
    'spread too large',
    'no limit stated',
    'too hot',
    'no interpass place',
    'named answer missing',
    'paused by gap',
    'no soak needed',
    'judged through the thickness',
    'no heated width',
    'far face not as computed',
  ];
  const ids: readonly ConditionId[] = [
    'minimum stated',
    'zone probes placed',
    'minimum reached',
    'soak',
    'through thickness',
    'evenness',
    'highest temperature',
    'interpass maximum',
    'answers given',
  ];

  it.each(ids)('%s has words for every reason, whatever is missing', (id) => {
    for (const reason of reasons) {
      const bare: Condition = { id, state: 'not met', reason };
      const full = {
        ...bare,
        probe: 'T4',
        value: milliCelsius(12),
        limit: milliCelsius(15),
        timeToGo: minutes(2),
        missing: ['T1'],
      };
      for (const condition of [bare, full]) {
        expect(conditionText(condition, assessment()), reason).toMatch(/^[A-Z0-9](?!.*(undefined|NaN)).*[^.]$/);
      }
      expect(conditionText(bare, assessment())).not.toMatch(/\bsafe\b/i);
    }
    expect(conditionName(id)).not.toBe('');
  });

  it('name the places that are missing', () => {
    const blind: Condition = {
      id: 'minimum reached',
      state: 'not judged',
      reason: 'no trusted fresh reading',
      missing: ['T1', 'T2', 'T5'],
    };
    expect(conditionText(blind, assessment())).toBe('No trusted reading now at T1, T2 and T5');
    const side: Condition = {
      id: 'zone probes placed',
      state: 'not judged',
      reason: 'side without zone probe at 75 mm',
      missing: ['B'],
    };
    expect(conditionText(side, assessment())).toBe('No zone probe at 75 mm or more from the groove on side B');
  });

  it('tell a wait that is lost from one that is stopped', () => {
    const soak = { id: 'soak', state: 'not met', value: minutes(3), limit: minutes(8) } as const;
    const of = (reason: Condition['reason'], state: SoakStatus['state']): string =>
      conditionText({ ...soak, reason }, assessment({ soak: { rule: 'wait', state } }));
    expect(of('paused by gap', 'paused')).toBe('Wait stopped by missing readings: 3 min of 8 min');
    expect(of('paused by gap', 'voided')).toBe('Wait lost by missing readings: enter heat off again to begin it anew');
    expect(of('below minimum', 'voided')).toMatch(/^Wait lost, .*heat again, then heat off$/);
    expect(of('below minimum', 'not begun')).toBe('Soak begins when every place is at the minimum');
  });

  it('shorten a long list', () => {
    expect(listText([])).toBe('');
    expect(listText(['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'])).toBe('A, B, C, D, E, F and 2 more');
  });
});

describe('alarms', () => {
  const kinds = Object.keys(alarmRules) as AlarmKind[];
  it.each(kinds)('%s: what, why and the first check', (kind) => {
    const bare: Alarm = { key: kind, kind, state: 'active', since: at };
    for (const alarm of [bare, { ...bare, probe: 'T4', value: milliCelsius(140), limit: milliCelsius(150) }]) {
      const { what, why, firstCheck } = alarmText(alarm, 'metric');
      expect(what).toMatch(/^[A-Z].*[^.]$/);
      expect(why).toMatch(/^[A-Z].*\.$/);
      expect(firstCheck).toMatch(/^[A-Z].*\.$/);
      expect(`${what} ${why} ${firstCheck}`).not.toMatch(/undefined|NaN|\bsafe\b/i);
    }
  });
  it('name the place and the number', () => {
    const alarm: Alarm = {
      key: 'a',
      kind: 'below minimum',
      probe: 'T4',
      state: 'active',
      since: at,
      value: milliCelsius(147.98),
      limit: milliCelsius(150),
    };
    expect(alarmText(alarm, 'metric').what).toBe('Below the minimum preheat at T4: 148 °C of 150 °C');
  });
});

describe('verdict', () => {
  it('counts no pass as complying and no silence as a pass', () => {
    expect(verdictText(assessment())).toBe('Cannot be judged: no pass was entered. This is not a pass.');
    const open = [finding('soak not judged', { pass: '1' }), finding('minimum not judged', { pass: '1', probe: 'T4' })];
    expect(verdictText(assessment({ findings: open }))).toBe(
      'Cannot be judged: soak not judged when pass 1 began; and 1 more finding. This is not a pass.',
    );
  });
  it('names what stands against it, remarks left out', () => {
    const findings = [finding('silent', { probe: 'T4' }), finding('soak not met', { pass: '1' })];
    expect(verdictText(assessment({ verdict: 'does-not-comply', findings }))).toBe(
      'Does not comply: soak not complete when pass 1 began.',
    );
  });
  it('never says more than was judged', () => {
    const text = verdictText(assessment({ verdict: 'complies' }));
    expect(text).toMatch(/that was judged was kept.*nothing about the weld itself/);
    expect(scopeText(assessment({ scope: [] }))).toBe('Nothing was judged.');
    expect(scopeText(assessment({ scope: ['soak', 'passes'] }))).toBe('Judged: soak and passes.');
  });
});

describe('soak, interpass, source, place', () => {
  it('tells every state of the soak', () => {
    const wait: SoakStatus = { rule: 'wait', state: 'running', required: minutes(8), done: minutes(3) };
    expect(soakText(wait)).toBe('Wait after heat off running: 3 min of 8 min, about 5 min to go.');
    expect(soakText({ ...wait, state: 'done' })).toBe('Wait after heat off done: 8 min.');
    expect(soakText({ ...wait, state: 'voided', voidedBy: 'gap', done: minutes(0) })).toBe(
      'Soak lost: readings were missing for more than 60 s. It begins when heat off is entered with every place at the minimum and lasts 8 min.',
    );
    expect(soakText({ rule: 'opposite', state: 'not needed' })).toMatch(/^No soak needed/);
    expect(soakText({ rule: 'none', state: 'not judged' })).toMatch(/^Soak not judged/);
    expect(soakText({ ...wait, rule: 'hold', state: 'paused' })).toMatch(
      /^Hold paused by missing readings: 3 min of 8 min/,
    );
    for (const voidedBy of ['heat on', 'below minimum', 'still rising'] as const) {
      expect(soakText({ ...wait, state: 'voided', voidedBy })).toMatch(/^Soak lost: /);
    }
    expect(soakText({ ...wait, state: 'not begun' })).toMatch(/^Soak not begun/);
  });

  it('marks every source that is not a plain measurement', () => {
    for (const kind of sourceKinds) {
      const source = { kind, detail: 'board mill-3' };
      expect(sourceText(source)).toMatch(/^[A-Z].*\. Board mill-3\.$|^[A-Z].*\.$/);
      expect(sourceMark(source) === undefined).toBe(kind === 'measured');
    }
    expect(sourceText({ kind: 'simulated', detail: 'the board says so' })).toBe(
      'Simulated: made by software, not measured on a part. The board says so.',
    );
  });

  it('points at a place', () => {
    expect(placeText({ part: 'p', side: 'B', face: 'back', distanceMillimetres: 0, clock: 6 }, 'metric')).toBe(
      "Side B, back face, on the groove edge, at 6 o'clock",
    );
    for (const quality of qualities) expect(qualityText(quality)).not.toBe('');
  });

  it('tells no preheat from not known', () => {
    const of = (kind: 'none' | 'no preheat needed' | 'procedure', preheatMinimumCelsius?: number): string =>
      minimumText({
        units: 'metric',
        equivalents: [],
        methods: [],
        warnings: [],
        governing: { kind, because: '', ...(preheatMinimumCelsius === undefined ? {} : { preheatMinimumCelsius }) },
      });
    expect(of('procedure', 150)).toBe('150 °C');
    expect(of('none')).toBe('Not known');
    expect(of('no preheat needed')).toBe('No preheat needed');
  });
});
