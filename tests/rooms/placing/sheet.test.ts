/** Section and plan of every kind of joint: to one scale, every placed probe once, labels apart with sixteen probes. */
import { describe, expect, test } from 'vitest';
import { planOf } from '../../../server/placing/plan.ts';
import { sectionOf } from '../../../server/placing/section.ts';
import { sheetOf } from '../../../server/placing/sheet.ts';
import { type Joint, jointSchema, jointTypes } from '../../../server/weld/joint.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const oneDiameter = 323.9;

/** Sixteen probes, alternating sides and faces, several at one place; clock positions where asked for. */
const crowded = (jointType: Joint['jointType'], clocks: boolean, more: Record<string, unknown> = {}): Joint =>
  jointSchema.parse({
    ...plainJoint(),
    jointType,
    parts: [
      { id: 'one', side: 'A', thicknessMillimetres: 60, analyses: [], ...more },
      { id: 'two', side: 'B', thicknessMillimetres: 40, analyses: [], ...more },
    ],
    probes: Array.from({ length: 16 }, (_, index) => ({
      id: `probe ${index + 1}`,
      board: 'board',
      channel: index + 1,
      thermocouple: 'K',
      use: 'zone',
      place: {
        part: index % 2 === 0 ? 'one' : 'two',
        side: index % 2 === 0 ? 'A' : 'B',
        face: index % 3 === 2 ? 'back' : 'front',
        distanceMillimetres: index === 0 ? 5 : 75,
        ...(clocks ? { clock: (index * 5) % 12 } : {}),
      },
    })),
  });

const paper = { width: 511, heightMost: 150, label: { width: 96, height: 18, gap: 3.5 }, lead: 17, edge: 3 };
const screen = { width: 1000, heightMost: 340, label: { width: 158, height: 62, gap: 8 }, lead: 30, edge: 6 };
const phone = { ...screen, width: 340 };

describe.each(jointTypes)('%s with sixteen probes', (jointType) => {
  const joint = crowded(jointType, true, { form: 'tube', outsideDiameterMillimetres: oneDiameter });
  const views = { section: sectionOf(joint), plan: planOf(joint) };
  test.each([
    ['section', 'paper', paper],
    ['section', 'screen', screen],
    ['section', 'phone', phone],
    ['plan', 'paper', paper],
    ['plan', 'screen', screen],
  ] as const)('%s on %s: every probe once, no label on another or off the sheet', (which, _where, size) => {
    const sheet = sheetOf(views[which], size);
    expect(sheet.pins.map(({ probe }) => probe).sort()).toEqual(joint.probes.map(({ id }) => id).sort());
    expect(sheet.perMillimetre).toBeGreaterThan(0);
    const { width, height } = size.label;
    const slack = 0.01;
    for (const { label, probe } of sheet.pins) {
      const [x, y] = label;
      const inside =
        x >= -slack && y >= -slack && x + width <= sheet.width + slack && y + height <= sheet.height + slack;
      expect({ probe, inside }).toEqual({ probe, inside: true });
    }
    const covered = sheet.pins.flatMap((one, index) =>
      sheet.pins
        .slice(index + 1)
        .filter(
          (other) =>
            Math.abs(one.label[0] - other.label[0]) < width - slack &&
            Math.abs(one.label[1] - other.label[1]) < height - slack,
        )
        .map((other) => `${one.probe} and ${other.probe}`),
    );
    expect(covered).toEqual([]);
  });
});

test('in the plan of a pipe the clock decides: 12 is up, 3 right, outside and bore are one wall apart', () => {
  const joint = crowded('pipe butt', true, { form: 'tube', outsideDiameterMillimetres: oneDiameter });
  const radius = oneDiameter / 2;
  const { marks } = planOf(joint);
  const first = marks.find(({ probe }) => probe.id === 'probe 1')!;
  expect(first.at[0]).toBeCloseTo(0, 9);
  expect(first.at[1]).toBeCloseTo(-radius, 9);
  for (const { probe, at, hidden } of marks) {
    expect(Math.hypot(at[0], at[1])).toBeCloseTo(probe.place.face === 'front' ? radius : radius - 60, 9);
    expect(hidden).toBe(probe.place.face === 'back');
  }
});

test('a probe without a clock position is named and put nowhere on a pipe; a missing diameter is asked for', () => {
  const { marks, liberties } = planOf(crowded('pipe butt', false));
  expect(marks).toEqual([]);
  expect(liberties).toContainEqual({ kind: 'diameter missing', part: 'one' });
  expect(liberties.find(({ kind }) => kind === 'clock missing')).toMatchObject({ probes: { length: 16 } });
});

test('a stated diameter is no liberty', () => {
  const kinds = planOf(
    crowded('nozzle or branch', true, { form: 'tube', outsideDiameterMillimetres: oneDiameter }),
  ).liberties.map(({ kind }) => kind);
  expect(kinds).toEqual([]);
});

test('a probe far out stands at the end of what is drawn, and the section says so', () => {
  const [first] = crowded('plate butt', false).probes;
  const far = { ...first!, place: { ...first!.place!, distanceMillimetres: 3000 } };
  const view = sectionOf({ ...crowded('plate butt', false), probes: [far] });
  expect(view.marks[0]!.beyond).toBe(true);
  expect(view.liberties).toContainEqual({ kind: 'beyond', probes: [far.id] });
});

test('the heated face is drawn as far as the chosen code asks: 75 mm at 60 mm by AWS D1.1 (verified)', () => {
  const [line] = sectionOf({ ...crowded('plate butt', false), codeSet: 'AWS D1.1' }).heatedLines;
  const edge = Math.abs(sectionOf(crowded('plate butt', false)).zoneLines[0]!.from[0]);
  expect(Math.abs(line!.to[0]) - edge).toBeCloseTo(75, 9);
});
