/** Acts: every one names a person, documents are held by hash and bounded, and nothing unknown comes in. */
import { expect, test } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import { namedActSchema } from '../../../server/weld/entry.ts';
import { problems } from '../../../server/weld/problems.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const who = { name: 'A. Example', role: 'welder' };
const sha256 = 'a'.repeat(64);
const problemFields = (input: unknown) => {
  const result = namedActSchema.safeParse(input);
  return result.success ? [] : problems(result.error, input, namedActSchema).map((one) => one.field);
};

const acts: readonly Record<string, unknown>[] = [
  { kind: 'heat', state: 'on' },
  { kind: 'pass start', pass: '1', passKind: 'root', welder: 'W1', side: 'A', happenedAt: 1_700_000_000_000 },
  { kind: 'pass end', pass: '1' },
  { kind: 'pass start', pass: '2', passKind: 'fill', welder: 'W1', layer: '1', batch: 'E-42 lot 7', process: '141' },
  { kind: 'pass end', pass: '2', volts: 24, amperes: 160, runOutMillimetres: 360, arcSeconds: 120, stops: '3 h' },
  { kind: 'pass details', pass: '2', millimetresPerSecond: 3 },
  { kind: 'correct pass', pass: '2', name: '3', startedAt: 1_700_000_000_000, reason: 'a slip' },
  { kind: 'correct pass', pass: '2', struck: true, reason: 'never welded' },
  {
    kind: 'contact reading',
    celsius: 180,
    instrument: 'CT-1',
    use: 'interpass',
    place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 10 },
  },
  {
    kind: 'contact reading',
    celsius: 150,
    instrument: 'CR-150',
    instrumentKind: 'crayon',
    shows: 'below',
    probe: 'T1',
    use: 'zone',
    place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 },
  },
  { kind: 'note', text: 'rain on the roof', document: sha256 },
  { kind: 'acknowledge', alarm: 'below minimum zone A' },
  { kind: 'shelve', alarm: 'probe/zone A', minutes: 30, reason: 'a new probe is being fetched' },
  { kind: 'unshelve', alarm: 'probe/zone A' },
  { kind: 'accept', subject: 'extended range', method: 'en-1011-2-method-b', reason: 'agreed with the coordinator' },
  {
    kind: 'calibration',
    instrument: 'W-1',
    certificate: 'C-18',
    calibratedOn: '2026-03-01',
    dueOn: '2027-02-28',
    corrections: [{ atCelsius: 150, correctionKelvin: -0.4, expandedKelvin: 0.8, coverageFactor: 2 }],
    happenedAt: 1_700_000_000_000,
  },
  {
    kind: 'verification',
    instrument: 'W-1',
    reference: 'CT-1',
    readCelsius: 151,
    referenceCelsius: 150.2,
    result: 'within its limit',
  },
  { kind: 'adjustment', instrument: 'B-1', what: 'offset of channel 3 set anew' },
  {
    kind: 'disposition',
    finding: 'below minimum at pass start/T1/1/0',
    decision: 'accept',
    value: 148_000,
    reason: 'as the test weld',
  },
  { kind: 'declare source', statement: 'board 7 is on this part; checked by touch' },
  { kind: 'distrust probe', probe: 'T1', reason: 'its tip hangs in the air' },
  { kind: 'trust probe again', probe: 'T1', reason: 'welded on anew' },
  { kind: 'spare takes over', spare: 'S1', probe: 'T1', reason: 'T1 is off' },
  {
    kind: 'ambient check',
    airCelsius: 15.5,
    airReadWith: 'CT-1',
    rest: [{ probe: 'T1', celsius: 15.8 }, { probe: 'T2' }],
    touches: [
      {
        probe: 'T1',
        way: 'warmed',
        from: 1_700_000_000_000,
        until: 1_700_000_010_000,
        readings: [{ probe: 'T1', fromCelsius: 15.8, toCelsius: 18.1 }],
      },
    ],
  },
  { kind: 'attach', title: 'certificate', mediaType: 'application/pdf', bytes: 1000, sha256 },
  { kind: 'revise', joint: plainJoint(), reason: 'thickness corrected' },
  { kind: 'close' },
];
for (const act of acts) {
  test(`${String(act.kind)}: taken with a named person, refused without one or with an unknown field`, () => {
    expect(problemFields({ who, act })).toEqual([]);
    expect(problemFields({ act })).toEqual(['who']);
    expect(problemFields({ who: { name: '  ' }, act })).toEqual(['who.name']);
    expect(problemFields({ who, act: { ...act, colour: 'red' } })).toEqual(['act.colour']);
  });
}

test('a document above the bound, or with a hash that is none, is refused', () => {
  const attach = { kind: 'attach', title: 'photo', mediaType: 'image/jpeg', bytes: limits.documentMaximum, sha256 };
  expect(problemFields({ who, act: attach })).toEqual([]);
  expect(problemFields({ who, act: { ...attach, bytes: limits.documentMaximum + 1 } })).toEqual(['act.bytes']);
  expect(problemFields({ who, act: { ...attach, sha256: 'A'.repeat(64) } })).toEqual(['act.sha256']);
  expect(problemFields({ who, act: { ...attach, mediaType: 'photo' } })).toEqual(['act.mediaType']);
});

test('an unknown kind of act is answered with the kinds there are', () => {
  const input = { who, act: { kind: 'jump' } };
  const result = namedActSchema.safeParse(input);
  const [problem] = problems(result.error!, input, namedActSchema);
  expect(problem).toMatchObject({ field: 'act.kind', found: 'the text "jump"' });
  expect(problem!.allowed).toContain('"pass start"');
});

test('a text above its bound is refused', () => {
  expect(problemFields({ who, act: { kind: 'note', text: 'x'.repeat(limits.textMaximum) } })).toEqual([]);
  expect(problemFields({ who, act: { kind: 'note', text: 'x'.repeat(limits.textMaximum + 1) } })).toEqual(['act.text']);
});

test('a crayon says whether it melted, a pyrometer what is set on it, and nothing else says either', () => {
  const reading = {
    kind: 'contact reading',
    celsius: 150,
    instrument: 'H-1',
    use: 'zone',
    place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 },
  };
  const fields = (more: Record<string, unknown>) => problemFields({ who, act: { ...reading, ...more } });
  expect(fields({ instrumentKind: 'crayon' })).toEqual(['act.shows']);
  expect(fields({ instrumentKind: 'pyrometer' })).toEqual(['act.emissivity']);
  expect(fields({ instrumentKind: 'pyrometer', emissivity: 0.85 })).toEqual([]);
  expect(fields({ instrumentKind: 'pyrometer', emissivity: 8.5 })).toEqual(['act.emissivity']);
  expect(fields({ instrumentKind: 'contact thermometer', shows: 'below' })).toEqual(['act.shows']);
  expect(fields({ emissivity: 0.85 })).toEqual(['act.emissivity']);
});
