import { expect, it } from 'vitest';
import { actSchema } from '../../../server/weld/entry.ts';
import { strangeNames } from '../../../server/weld/strange-names.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const joint = plainJoint({
  probes: [
    {
      id: 'T1',
      board: 'board-1',
      channel: 1,
      thermocouple: 'K',
      use: 'zone',
      place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 75 },
    },
  ],
});
const place = { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 10 };
const day = { certificate: 'C 17', calibratedOn: '2026-01-05' };
const field = (act: object) => strangeNames(actSchema.parse(act), joint).map((each) => each.field);

it.each([
  [{ kind: 'spot examined', probe: 'T9', method: 'MT', result: 'no indication' }, ['act.probe']],
  [{ kind: 'spot examined', probe: 'T1', method: 'MT', result: 'no indication' }, []],
  [{ kind: 'distrust probe', probe: 'T9', reason: 'fell off' }, ['act.probe']],
  [{ kind: 'spare takes over', spare: 'T8', probe: 'T1', reason: 'fell off' }, ['act.spare']],
  [
    { kind: 'spare takes over', spare: 'T1', probe: 'T1', place: { ...place, part: 'web' }, reason: 'x' },
    ['act.place.part'],
  ],
  [{ kind: 'contact reading', celsius: 150, instrument: 'CT-1', use: 'zone', place, probe: 'T9' }, ['act.probe']],
  // Whose instrument it is, is asked of its own acts; of a reading the judge says that it is not known.
  [{ kind: 'contact reading', celsius: 150, instrument: 'CT-1', use: 'zone', place }, []],
  [{ kind: 'calibration', instrument: 'CT-1', ...day }, ['act.instrument']],
  [{ kind: 'heat', state: 'on' }, []],
])('%j', (act, fields) => expect(field(act)).toEqual(fields));

it('says what there is instead', () => {
  const [problem] = strangeNames(actSchema.parse({ kind: 'distrust probe', probe: 'T9', reason: 'fell off' }), joint);
  expect(problem).toEqual({ field: 'act.probe', found: 'T9', allowed: 'one of T1' });
});
