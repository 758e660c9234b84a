import { describe, expect, test } from 'vitest';
import type { SectionOutlook, SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import { type MilliCelsius, milliCelsius, minutes, after as soonAfter } from '../../../server/measure/quantity.ts';
import { columnsMaximum, grown } from '../../../web/feed/course.ts';
import { depthTicks } from '../../../web/parts/wall/depth.ts';
import { colourSpanOf, mapPicture, upToNow } from '../../../web/parts/wall/map-model.ts';
import { profilePicture, scaleOf } from '../../../web/parts/wall/profile-model.ts';
import { readingsOf } from '../../../web/parts/wall/readings.ts';
import { wallTable } from '../../../web/parts/wall/table-model.ts';
import { aheadText, breakText, faceTexts, standingText } from '../../../web/parts/wall/words.ts';
import { probeRows } from '../../../web/state/probe-rows.ts';
import { girderScript } from '../../support/station/scripts.ts';
import { momentOf, zone } from './page-fixture.ts';
import { wallScript } from './wall-fixture.ts';

const minimum = milliCelsius(150);
const heating = momentOf(wallScript, 30);
const [web, flange] = heating.live.assessment.sections as [SectionStatus, SectionStatus];
/** Chosen figures, so that the words do not hang on what the solver makes of this run. */
const far = { low: 145_264, likely: 150_403, high: 155_767 } as NonNullable<SectionStatus['farFace']>;
const chosen: SectionStatus = { ...web, state: 'not met', coldest: far, farFace: far };
const rows = new Map(probeRows(heating.live, heating.now).map((row) => [row.probe, row]));
const readings = [web, flange].map((section) => readingsOf(heating.live, section, rows));
const scale = scaleOf([web, flange], readings.flat(), minimum, 'metric');
const pictureOf = (index: number, width = 480) =>
  profilePicture({
    section: [chosen, flange][index]!,
    readings: readings[index]!,
    minimum,
    units: 'metric',
    scale,
    width,
  })!;

describe('the profile', () => {
  test('names what was measured at its face and what was computed', () => {
    const said = [0, 1].map((index) =>
      pictureOf(index).marks.map(({ kind, face, lines }) => `${face}: ${kind}: ${lines.join(' | ')}`),
    );
    expect(said).toEqual([
      ['heated: measured: A2 | 167 °C', 'far: computed: computed | 145 to | 156 °C'],
      ['heated: measured: B1 | 177 °C', 'heated: measured: B2 | 172 °C', 'far: measured: B3 | 157 °C'],
    ]);
  });

  test('warmer is higher, the band holds the likely line, and the coldest lies where the band is lowest', () => {
    const { band, likely, coldest, minimum: limit, left, right, top, bottom } = pictureOf(0);
    const upper = band.slice(0, likely.length);
    const lower = band.slice(likely.length).reverse();
    likely.forEach(([x, y], index) => {
      expect(upper[index]![1]).toBeLessThanOrEqual(y + 1e-9);
      expect(lower[index]![1]).toBeGreaterThanOrEqual(y - 1e-9);
      expect(x).toBeGreaterThanOrEqual(left);
      expect(x).toBeLessThanOrEqual(right);
      expect(y).toBeGreaterThan(top);
      expect(y).toBeLessThan(bottom);
    });
    expect(likely[0]![1]).toBeLessThan(likely.at(-1)![1]);
    expect(coldest.x).toBe(right);
    expect(coldest.y).toBeCloseTo(Math.max(...lower.map(([, y]) => y)), 9);
    expect(limit!.y).toBeLessThan(coldest.y);
  });

  test('both parts stand on one scale', () => {
    expect(pictureOf(0).degrees).toEqual(pictureOf(1).degrees);
    expect(pictureOf(0).minimum).toEqual(pictureOf(1).minimum);
  });

  test('a phone has room for names, values and the picture', () => {
    const { left, right, width } = pictureOf(0, 330);
    expect(right - left).toBeGreaterThan(130);
    expect(left).toBeGreaterThan(90);
    expect(width - right).toBeGreaterThan(70);
  });

  test('a section that is not computed has no axes', () => {
    const [bare] = momentOf(girderScript, 5).live.assessment.sections;
    expect(bare!.reason).toBe('no heated width');
    const input = { section: bare!, readings: [], minimum, units: 'metric', scale, width: 400 } as const;
    expect(profilePicture(input)).toBeUndefined();
  });

  test('an old reading is not drawn as the present one', () => {
    const late = new Map(probeRows(heating.live, soonAfter(heating.now, 60_000)).map((row) => [row.probe, row]));
    expect(readingsOf(heating.live, flange, late)).toEqual([]);
  });
});

describe('words', () => {
  test('how a part stands, where it is coldest, and how sure that is', () => {
    expect(standingText(chosen, [], minimum, 'metric')).toEqual({
      word: 'Not warm through',
      because: 'coldest 145 °C of 150 °C at worst, 150.4 °C likely, at the far face',
    });
    expect(standingText(flange, [], minimum, 'metric')).toEqual({
      word: 'Warm through',
      because: 'coldest 157 °C of 150 °C, at the far face',
    });
    expect(standingText(chosen, [], minimum, 'inch').because).toBe(
      'coldest 293 °F of 302 °F at worst, 302.7 °F likely, at the far face',
    );
  });

  test('what is not judged says why and what mends it', () => {
    const [bare] = momentOf(girderScript, 5).live.assessment.sections;
    expect(standingText(bare!, [], minimum, 'metric')).toEqual({
      word: 'Not judged',
      because: 'enter how far the heater reaches from the edge of the groove',
    });
    const silent = { ...web, state: 'not judged', reason: 'no trusted fresh reading' } as const;
    expect(standingText(silent, ['A2'], minimum, 'metric').because).toContain('A2');
  });

  test('the faces carry their names and what is known of the far one', () => {
    expect(faceTexts(web, false)).toEqual({ heated: 'heated front face', far: ['far back face', 'still air'] });
    expect(faceTexts(flange, false).far[1]).toBe('measured by B3');
    expect(faceTexts({ ...web, farSide: 'unknown' }, false).far[1]).toBe('not known, counted as a draught');
    expect(faceTexts(web, true)).toEqual({ heated: 'outside', far: ['axis', 'no loss there'] });
  });

  test('what lies ahead says on what it counts', () => {
    const ahead = (outlook: Omit<SectionOutlook, 'part'>): string | undefined =>
      aheadText({ state: 'not met' }, { part: 'x', ...outlook }, 'metric');
    const range = { earliest: minutes(12), likely: minutes(15), latest: minutes(19) };
    expect(ahead({ course: 'held', reaches: 'always', ready: range })).toBe(
      'Warm through in 12 to 19 min with the heated face held',
    );
    expect(ahead({ course: 'rising', upTo: milliCelsius(175), reaches: 'always', ready: range })).toContain(
      '19 min with the heated face rising on to 175 °C',
    );
    expect(
      ahead({ course: 'held', reaches: 'never', surfaceNeeded: 170_200 as MilliCelsius, insulatedHelps: true }),
    ).toBe('Never at this surface temperature: needs 171 °C, or insulate the far face');
    expect(
      ahead({ course: 'rising', upTo: milliCelsius(149), reaches: 'not at worst', ready: { earliest: minutes(11) } }),
    ).toBe('At best in 11 min; at worst never with the heated face at 149 °C');
    const now = { earliest: minutes(0), likely: minutes(0), latest: minutes(0) };
    expect(ahead({ course: 'held', reaches: 'always', ready: now })).toBeUndefined();
    const holding = { part: 'x', course: 'held', reaches: 'always', ready: range } as const;
    expect(aheadText({ state: 'met' }, holding, 'metric')).toBe(
      'Held long enough in 12 to 19 min with the heated face held',
    );
    expect(aheadText({ state: 'not met' }, undefined, 'metric')).toBeUndefined();
    const cools = { earliest: minutes(25), latest: minutes(40), limit: milliCelsius(120) };
    const off = { part: 'x', course: 'held', reaches: 'always', ready: now } as const;
    expect(breakText({ ...off, coolsBelow: cools }, 'metric')).toMatch(
      /^Above 120 °C for 25 to 40 min with the heat off/,
    );
    expect(breakText({ ...off, coolsBelow: { ...cools, earliest: minutes(0) } }, 'metric')).toBeUndefined();
  });
});

describe('the map', () => {
  const course = upToNow(heating.live.courses.find(({ part }) => part === 'web plate')!, web);
  const span = colourSpanOf([course], minimum, 'metric');
  const picture = mapPicture({ course, depthMillimetres: 80, minimum, span, units: 'metric', width: 500, zone })!;

  test('ends with what the part has now, and its colours follow the temperatures', () => {
    expect(course.at.at(-1)).toBe(web.at);
    expect(course.likely.slice(-course.depths)).toEqual(web.profile!.likely.filter((_, index) => index % 2 === 0));
    const [first, last] = [picture.columns[0]!, picture.columns.at(-1)!];
    const light = (colour: readonly number[]): number => colour[0]! + colour[1]! + colour[2]!;
    expect(light(last.colours[0]!)).toBeGreaterThan(light(first.colours[0]!));
    expect(light(last.colours[0]!)).toBeGreaterThan(light(last.colours.at(-1)!));
    expect(picture.columns.length).toBe(course.at.length);
  });

  test('columns lie side by side from the first to the last', () => {
    expect(picture.columns[0]!.from).toBeCloseTo(picture.left, 6);
    expect(picture.columns.at(-1)!.to).toBeCloseTo(picture.right, 6);
    for (let index = 1; index < picture.columns.length; index += 1)
      expect(picture.columns[index]!.from).toBeCloseTo(picture.columns[index - 1]!.to, 6);
  });

  test('the line of the minimum begins at the heated face and goes deeper with time', () => {
    const ends = picture.contour.flat();
    const first = ends.reduce((a, b) => (b[0] < a[0] ? b : a));
    const last = ends.reduce((a, b) => (b[0] > a[0] ? b : a));
    expect(first[1]).toBeCloseTo(picture.top, 0);
    expect(last[1]).toBeGreaterThan(first[1] + 50);
    // At its end it lies between the two depths of the newest column that the minimum lies between.
    const newest = course.likely.slice(-course.depths);
    const below = newest.findIndex((value) => value < minimum);
    const depth = (picture.bottom - picture.top) / (course.depths - 1);
    expect(below).toBeGreaterThan(0);
    expect(last[1]).toBeGreaterThan(picture.top + (below - 1) * depth);
    expect(last[1]).toBeLessThanOrEqual(picture.top + below * depth);
  });

  test('a time without columns stays empty', () => {
    const cut = course.at.length - 12;
    const kept = (_: unknown, index: number): boolean => index < cut || index >= cut + 8;
    const holed = {
      ...course,
      at: course.at.filter(kept),
      coldest: course.coldest.filter(kept),
      likely: course.likely.filter((value, index) => kept(value, Math.floor(index / course.depths))),
    };
    const { columns } = mapPicture({
      course: holed,
      depthMillimetres: 80,
      minimum,
      span,
      units: 'metric',
      width: 500,
    })!;
    const gaps = columns.slice(1).map(({ from }, index) => from - columns[index]!.to);
    expect(gaps.filter((gap) => gap > 5)).toHaveLength(1);
  });

  test('one column makes no picture', () => {
    const one = { ...course, at: course.at.slice(0, 1), likely: course.likely.slice(0, course.depths) };
    expect(
      mapPicture({ course: one, depthMillimetres: 80, minimum, span, units: 'metric', width: 500 }),
    ).toBeUndefined();
  });

  test('the table says the same, newest first, and is bounded', () => {
    const table = wallTable(
      {
        ...course,
        likely: [...course.likely.slice(0, -course.depths), ...evenly(167_000, 149_960, course.depths)],
        coldest: course.coldest.with(-1, far.low),
      },
      80,
      minimum,
      'metric',
      zone,
    );
    expect(table.heads).toEqual(['Heated face', '20 mm', '40 mm', '60 mm', 'Far face', 'Coldest at worst']);
    expect(table.rows.length).toBeLessThanOrEqual(40);
    // On a straight line from 167 to 149.96; the far face is not rounded to the limit that it does not reach.
    expect(table.rows[0]!.cells).toEqual(['167', '163', '158', '154', '149.9', '145']);
  });

  test('depths are round in the unit of the job and end at the far face', () => {
    expect(depthTicks(80, 'metric', 6).map(({ text }) => text)).toEqual(['0', '20', '40', '60', '80']);
    expect(depthTicks(63, 'metric', 4).map(({ text }) => text)).toEqual(['0', '20', '40', '63']);
    expect(depthTicks(76.2, 'inch', 6).map(({ text }) => text)).toEqual(['0', '0.5', '1', '1.5', '2', '2.5', '3']);
  });
});

describe('a course grows with the live profiles', () => {
  const course = heating.live.courses.find(({ part }) => part === 'web plate')!;
  const spacing = course.at.at(-1)! - course.at.at(-2)!;
  const later = (milliseconds: number): SectionStatus => ({ ...web, at: soonAfter(course.at.at(-1)!, milliseconds) });

  test('by one column when the spacing has passed, and not before', () => {
    expect(grown([course], [later(spacing - 1000)])[0]).toBe(course);
    expect(grown([course], [later(spacing)])[0]!.at).toHaveLength(course.at.length + 1);
    expect(grown([course], [{ ...later(spacing), part: 'another' }])).toHaveLength(2);
    const { profile, ...bare } = later(spacing);
    expect(grown([course], [bare])[0]).toBe(course);
  });

  test('and never beyond what is drawn: every second column goes', () => {
    let now = [course] as ReturnType<typeof grown>;
    for (let count = 0; count < 1000; count += 1) {
      const last = now[0]!.at;
      now = grown(now, [{ ...web, at: soonAfter(last.at(-1)!, last.at(-1)! - last.at(-2)!) }]);
      expect(now[0]!.at.length).toBeLessThanOrEqual(columnsMaximum);
    }
    const { at, likely, coldest, depths } = now[0]!;
    expect(likely).toHaveLength(at.length * depths);
    expect(coldest).toHaveLength(at.length);
    expect(at).toEqual(at.toSorted((a, b) => a - b));
  });
});

function evenly(from: number, to: number, count: number): MilliCelsius[] {
  return Array.from(
    { length: count },
    (_, index) => Math.round(from + ((to - from) * index) / (count - 1)) as MilliCelsius,
  );
}
