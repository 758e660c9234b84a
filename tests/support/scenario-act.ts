/** The acts of a judgement scenario, each a few words: "start 1", "contact 190", "trust T1", with "welder: " before it where the role matters. */
import { after, type Instant } from '../../server/measure/quantity.ts';
import type { Act } from '../../server/weld/entry.ts';
import { passKinds } from '../../server/weld/pass-acts.ts';
import { roles } from '../../server/weld/person.ts';
import { afterActOf } from './scenario-after.ts';
import { breakActOf } from './scenario-break.ts';
import { checkOf } from './scenario-check.ts';
import { checkActOf } from './scenario-checks.ts';
import { clock, passActOf } from './scenario-pass.ts';

/** Who did what. Nobody states a role where the scenario does not. */
export function said(text: string, at: Instant, start: Instant): { who: string; role?: string; act: Act } {
  const [role, ...words] = text.split(': ');
  if (words.length === 0 || !(roles as readonly string[]).includes(role!))
    return { who: 'Ada', act: actOf(text, at, start) };
  return { who: 'Ada', role: role!, act: actOf(words.join(': '), at, start) };
}

function actOf(text: string, at: Instant, start: Instant): Act {
  const [verb, ...rest] = text.split(' ');
  // "heat off 45": told that many minutes after it was.
  if (verb === 'heat') {
    const [state, ago] = rest;
    return {
      kind: 'heat',
      state: state as 'on' | 'off',
      ...(ago === undefined ? {} : { happenedAt: at - Number(ago) * 60_000 }),
    };
  }
  if (verb === 'start') {
    // "start 1", "start 1 12": that many minutes ago; "start 1 gouging": of that kind.
    const [pass, word] = rest;
    const passKind = passKinds.find((kind) => kind === word) ?? 'fill';
    // "start 1 qualified:135:2026-03-31": for that process until that day; "start 1 unqualified": looked up, and none.
    const ago =
      word === undefined || passKind === word || word.includes('qualified')
        ? {}
        : { happenedAt: at - Number(word) * 60_000 };
    return { kind: 'pass start', pass: pass!, passKind, welder: 'Bo', ...qualifiedBy(word), ...ago };
  }
  const later =
    afterActOf(verb!, rest) ?? passActOf(verb!, rest, start) ?? breakActOf(verb!, rest) ?? checkActOf(verb!, rest);
  if (later !== undefined) return later;
  if (verb === 'contact') return contactOf(rest);
  if (verb === 'acknowledge') return { kind: 'acknowledge', alarm: rest.join(' ') };
  if (verb === 'check') return checkOf(rest, start);
  if (verb === 'distrust') return { kind: 'distrust probe', probe: rest[0]!, reason: 'doubted' };
  if (verb === 'trust') return { kind: 'trust probe again', probe: rest[0]!, reason: 'mended' };
  if (verb === 'spare') return { kind: 'spare takes over', spare: rest[0]!, probe: rest[1]!, reason: 'doubted' };
  if (verb === 'shelve') {
    const [minutes, ...alarm] = rest;
    return { kind: 'shelve', alarm: alarm.join(' '), minutes: Number(minutes), reason: 'told to the foreman' };
  }
  if (verb === 'unshelve') return { kind: 'unshelve', alarm: rest.join(' ') };
  // "calibrate W1 -2.5 from 0:00": corrections of -2.5 K at all points, holding from that time.
  if (verb === 'calibrate') {
    const [instrument, kelvin, , from] = rest;
    return {
      kind: 'calibration',
      instrument: instrument!,
      certificate: 'C-9',
      calibratedOn: '2026-03-01',
      corrections: [0, 400].map((atCelsius) => ({
        atCelsius,
        correctionKelvin: Number(kelvin),
        expandedKelvin: 0.6,
        coverageFactor: 2,
      })),
      ...(from === undefined ? {} : { happenedAt: after(start, clock(from)) }),
    };
  }
  if (verb === 'adjust') return { kind: 'adjustment', instrument: rest[0]!, what: 'new input stage' };
  if (verb === 'verify') {
    const result = rest[1] === 'outside' ? 'outside its limit' : 'within its limit';
    return {
      kind: 'verification',
      instrument: rest[0]!,
      reference: 'R-1',
      readCelsius: 100,
      referenceCelsius: 97,
      result,
    };
  }
  // "decide accept 148 below minimum at pass start/T1/1 from 1:00": the number as it was seen, or "-" for none.
  if (verb === 'decide') {
    const [decision, value, ...words] = rest;
    const [finding, from] = words.join(' ').split(' from ');
    return {
      kind: 'disposition',
      finding: `${finding}/${after(start, clock(from!))}`,
      decision: decision as 'accept' | 'repair' | 'reject',
      ...(value === '-' ? {} : { value: Math.round(Number(value) * 1000) }),
      reason: 'looked at and decided',
    };
  }
  if (verb === 'close') return { kind: 'close' };
  throw new Error(`the scenario has an act that nobody knows: ${text}`);
}

/** "contact 190", "contact 150 zone beside T1 with CR-1 crayon below", "contact 190 with P-1 pyrometer 0.85". */
function contactOf([celsius, ...words]: string[]): Act {
  const after = (word: string, ahead = 1): string | undefined =>
    words.includes(word) ? words[words.indexOf(word) + ahead] : undefined;
  const kind = words.includes('crayon') ? 'crayon' : words.includes('pyrometer') ? 'pyrometer' : undefined;
  const probe = after('beside');
  return {
    kind: 'contact reading',
    celsius: Number(celsius),
    instrument: after('with') ?? 'hand thermometer',
    ...(kind === undefined ? {} : { instrumentKind: kind }),
    ...(kind === 'crayon' ? { shows: after('crayon') === 'below' ? 'below' : 'at least' } : {}),
    ...(kind === 'pyrometer' ? { emissivity: Number(after('pyrometer')) } : {}),
    ...(probe === undefined ? {} : { probe }),
    use: words[0] === 'zone' ? 'zone' : words[0] === 'opposite' ? 'opposite face' : 'interpass',
    place: { part: 'plate-a', side: 'A', face: 'front', distanceMillimetres: 10 },
  };
}

function qualifiedBy(word = ''): Pick<Act & { kind: 'pass start' }, 'qualifications'> {
  if (word === 'unqualified') return { qualifications: [] };
  const [, process, validUntil, confirmedOn] = word.split(':');
  if (process === undefined || !word.startsWith('qualified')) return {};
  const confirmed = confirmedOn === undefined ? {} : { confirmedOn, confirmEveryMonths: 6 };
  const of = {
    standard: 'ISO 9606-1',
    certificate: 'VK-118',
    range: 'BW',
    processes: [process as '135'],
    ...confirmed,
  };
  return { qualifications: [{ ...of, ...(validUntil === '' ? {} : { validUntil }) }] as never };
}
