/**
 * The real log of the heated steel columns as places that are seen through their thickness, each probe a front of its
 * own: the flange as it is, and the thick plate of the joint that the log is judged as elsewhere. Source: NIST Fire
 * Research Division, World Trade Center investigation, phase 1 test 5 (public; not subject to US copyright). The file
 * is not part of this repository; where it is absent the tests are counted as skipped. What lies inside was not
 * measured: held here is that nothing breaks, that what is not taken is named, and that the ends stay in order.
 *
 * Read off the log itself: TCU1S has no number before 2550 s; TB1S comes and goes in 92 of 501 rows, 6.6 to 1440 °C;
 * TB4S falls below what a part can be at 450 s and never comes back; the other columns are whole.
 */
import { describe, expect, it } from 'vitest';
import { coolingOutlook } from '../../server/conduction/break.ts';
import { isRefusal, type RefusalKind } from '../../server/conduction/refusal.ts';
import {
  coldestBetween,
  createSection,
  driveSection,
  farFaceBetween,
  hottestBetween,
  type Section,
  type SectionStart,
  sectionNow,
} from '../../server/conduction/section.ts';
import { carbonSteel } from '../../server/conduction/steel/carbon.ts';
import { warmingOutlook } from '../../server/conduction/warming.ts';
import { milliCelsius } from '../../server/measure/quantity.ts';
import { second, taken } from '../support/driven-wall.ts';
import { hasSlowHeatingLog, type Row, slowHeatingRows } from '../support/slow-heating.ts';

const columns = ['TCU', 'TCM', 'TCL'].flatMap((height) => [1, 2, 3, 4].map((place) => `${height}${place}S`));
const [flangeMillimetres, plateMillimetres] = [12.7, 80];
const late = 'TCU1S';

interface Run {
  readonly refusals: readonly RefusalKind[];
  /** Seconds of the log at which the place was begun, at first and anew. */
  readonly begun: readonly number[];
  readonly section?: Section;
}

/** Drives one place by one probe and looks at it each time; begins anew after a gap, as the judge does. */
function run(rows: readonly Row[], probe: string, thicknessMillimetres: number, see: (section: Section) => void): Run {
  const refusals: RefusalKind[] = [];
  const begun: number[] = [];
  let section: Section | undefined;
  const begin = (seconds: number, celsius: number) => {
    const shape = { kind: 'plate', thicknessMillimetres } as const;
    const spec = { shape, steel: carbonSteel, far: 'unknown', farProbe: false, ambientCelsius: 20 } as const;
    const start: SectionStart = { at: second(seconds), faceCelsius: celsius, inside: 'not known' };
    const made = createSection(spec, start);
    section = isRefusal(made) ? undefined : made;
    if (isRefusal(made)) refusals.push(made.refused);
    else begun.push(seconds);
  };
  for (const { seconds, cells } of rows) {
    const celsius = Number(cells.get(probe));
    if (Number.isNaN(celsius)) continue;
    if (section === undefined) {
      begin(seconds, celsius);
      continue;
    }
    const refused = driveSection(section, second(seconds), milliCelsius(celsius))?.refused;
    if (refused !== undefined) refusals.push(refused);
    if (refused === 'gap too long') begin(seconds, celsius);
    if (section !== undefined) see(section);
  }
  return { refusals, begun, ...(section !== undefined && { section }) };
}

/** No number that is none, and low, likely and high in this order, within what can be. */
function expectSound(section: Section): void {
  const now = sectionNow(section);
  for (const { low, likely, high } of [coldestBetween(now), farFaceBetween(now), hottestBetween(now)]) {
    expect(low).toBeLessThanOrEqual(likely);
    expect(likely).toBeLessThanOrEqual(high);
    expect(low).toBeGreaterThan(-41_000);
    expect(high).toBeLessThanOrEqual(600_000);
  }
}

function expectOrder({ earliest = 0, likely, latest }: { earliest?: number; likely?: number; latest?: number }): void {
  expect([earliest, likely ?? 0, latest ?? 0].every(Number.isSafeInteger)).toBe(true);
  expect(earliest).toBeLessThanOrEqual(likely ?? earliest);
  expect(likely ?? 0).toBeLessThanOrEqual(latest ?? Number.POSITIVE_INFINITY);
}

describe.skipIf(!hasSlowHeatingLog)('the heated columns, each probe as the front of a place', () => {
  const rows = hasSlowHeatingLog ? slowHeatingRows() : [];

  it.each(columns)('%s: is taken whole, and the ends stay in order', (probe) => {
    for (const thickness of [flangeMillimetres, plateMillimetres]) {
      const { refusals, begun } = run(rows, probe, thickness, expectSound);
      expect(refusals).toEqual([]);
      expect(begun).toEqual([probe === late ? 2550 : -50]);
    }
  });

  it('the flange is warm through at once, the thick plate follows behind', () => {
    const apart = (thickness: number) => {
      const now = sectionNow(run(rows, 'TCM3S', thickness, () => {}).section!);
      return now.likely.field.frontCelsius - coldestBetween(now).low / 1000;
    };
    expect(apart(flangeMillimetres)).toBeLessThan(5);
    expect(apart(plateMillimetres)).toBeGreaterThan(3 * apart(flangeMillimetres));
  });

  it('the probe that comes late begins with nothing known of the inside, and has forgotten it at the end', () => {
    const widths: number[] = [];
    run(rows, late, plateMillimetres, (section) => {
      const { low, high } = farFaceBetween(sectionNow(section));
      widths.push(high - low);
    });
    // The face had 119 degrees more than the air when it began.
    expect(Math.max(...widths)).toBeGreaterThan(90_000);
    expect(widths.at(-1)).toBeLessThan(20_000);
  });

  it('the probe that runs away is refused by its name, and the place stays as the last reading left it', () => {
    const { refusals, section } = run(rows, 'TB4S', plateMillimetres, expectSound);
    expect(refusals.length).toBeGreaterThan(400);
    expect([...new Set(refusals)]).toContain('below what a part can be');
    expect(section!.likely.front.lastAt).toBeLessThan(second(500));
  });

  it('the probe that comes and goes is taken where it can be, begun anew after each gap, and refused elsewhere', () => {
    const { refusals, begun } = run(rows, 'TB1S', plateMillimetres, expectSound);
    expect(begun.length).toBeGreaterThan(1);
    expect(new Set(refusals)).toContain('gap too long');
    expect(new Set(refusals)).toContain('above the range of the properties');
  });

  it('looking ahead from any time of it gives whole numbers in order', () => {
    for (const probe of ['TCU1S', 'TCL3S', 'TB1S']) {
      let rowsSeen = 0;
      run(rows, probe, plateMillimetres, (section) => {
        rowsSeen += 1;
        if (rowsSeen % 20 !== 0) return;
        const now = sectionNow(section);
        for (const course of [
          { kind: 'held' },
          { kind: 'rising', kelvinPerMinute: 3, toCelsius: 250 },
          { kind: 'left' },
        ] as const)
          expectOrder(taken(warmingOutlook(now, course, { celsius: 150, holdMilliseconds: 600_000 })));
        expectOrder(taken(coolingOutlook(now, 60)));
      });
      expect(rowsSeen).toBeGreaterThan(40);
    }
  });
});
