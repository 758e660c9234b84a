/** What the desk says of a reading by hand that fits neither the joint nor its register. */
import { expect, test } from 'vitest';
import { handReadingProblems } from '../../../server/desk/hand-reading-acts.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { HandReadingAct } from '../../../server/weld/hand-reading.ts';
import { jointSchema } from '../../../server/weld/joint.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { assessment } from '../wording/sample-assessment.ts';

const joint = jointSchema.parse({
  ...(plainJoint() as object),
  instruments: [
    { id: 'CT-1', kind: 'contact thermometer' },
    { id: 'CR-150', kind: 'crayon' },
    { id: 'B-1', kind: 'board', board: 'b-1' },
  ],
});
const reading: HandReadingAct = {
  kind: 'contact reading',
  celsius: 150,
  instrument: 'CT-1',
  use: 'zone',
  place: { part: joint.parts[0]!.id, side: 'A', face: 'front', distanceMillimetres: 75 },
};
const fields = (more: Partial<HandReadingAct>, held = 0) =>
  handReadingProblems({ ...reading, ...more }, joint, assessment({ handReadings: held })).map(({ field }) => field);

test('what fits is taken, and so is an instrument that nobody registered', () => {
  expect(fields({})).toEqual([]);
  expect(fields({ instrument: 'borrowed', instrumentKind: 'pyrometer', emissivity: 0.9 })).toEqual([]);
  expect(fields({ instrument: 'CR-150', instrumentKind: 'crayon', shows: 'at least' })).toEqual([]);
});

test('another kind than the register has, a board, and a crayon without a word are not', () => {
  expect(fields({ instrumentKind: 'crayon', shows: 'below' })).toEqual(['act.instrumentKind']);
  expect(fields({ instrument: 'B-1' })).toEqual(['act.instrument']);
  expect(fields({ instrument: 'CR-150' })).toEqual(['act.shows']);
});

test('no more than a joint keeps', () => {
  expect(fields({}, limits.handReadingsMaximum)).toEqual(['act']);
});
