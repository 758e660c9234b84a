/** Heat through the thickness on paper: one part judged, one not, each with its basis, and a picture of its course. */
import { describe, expect, it, vi } from 'vitest';
import { chartSvg } from '../../../server/report/chart/chart-svg.ts';
import { lineStyle } from '../../../server/report/chart/line-style.ts';
import { leastName, sectionChart } from '../../../server/report/chart/section-chart.ts';
import type { ReportFacts } from '../../../server/report/facts.ts';
import { sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { type FixtureOptions, reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

// Judging hours of readings takes a while on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

const wire = { board: 'PB-0041', thermocouple: 'K' };
const place = (part: string, side: string, distanceMillimetres: number) => ({
  part,
  side,
  face: 'front',
  distanceMillimetres,
});

/** Both parts are 80 mm thick: Z1 lies more than that from the groove, Z2 does not. */
const joint = (
  change: Readonly<Record<string, unknown>> = {},
  procedure: object = { throughThicknessHoldMinutes: 10 },
) => {
  const { parts, procedure: usual } = fixtureJoint();
  return fixtureJoint({
    parts: parts.map((part) => ({ ...part, farSide: 'still air' })),
    heating: {
      means: 'resistance pads',
      face: 'front',
      whileWelding: 'on',
      halfWidthMillimetres: 400,
      airCelsius: 14,
    },
    probes: [
      { id: 'Z1', ...wire, channel: 1, use: 'zone', place: place('shell course 2', 'A', 90) },
      { id: 'Z2', ...wire, channel: 2, use: 'zone', place: place('shell course 3', 'B', 75) },
      { id: 'IP', ...wire, channel: 3, use: 'interpass', place: place('shell course 2', 'A', 10) },
      { id: 'Amb', ...wire, channel: 4, use: 'ambient' },
    ],
    procedure: { ...usual, ...procedure },
    ...change,
  });
};
const made = (options: FixtureOptions = {}): ReportFacts =>
  reportFacts({ joint: joint(), periodSeconds: 30, ...options });
const sectionOf = (facts: ReportFacts, heading: string): string =>
  sectionText(pages(facts).sections.find((each) => each.heading === heading)!);
const heading = 'Heat through the thickness';

const facts = made();
const text = sectionOf(facts, heading);
const [first, second] = text.split('\nshell course ').slice(1) as [string, string];

describe('the section of the report', () => {
  it('says what is asked for, that a part is not judged, and that it informs', () => {
    expect(text).toContain('Asked for: by the procedure: the coldest point through every part');
    expect(text).toContain('At the end: Not judged.');
    expect(text).toContain('Held up by: shell course 3');
    expect(text).toContain(
      'Which soak rule came last: The hold by time has ended, but whether heat is through is not judged.',
    );
    expect(text).toMatch(/This informs; what the qualified procedure and the governing code ask for comes first\./);
    expect(text).not.toMatch(/undefined|NaN/);
  });

  it('gives of a judged part its least, likely and most, near what a steady wall in still air has', () => {
    // In a furnace nothing runs sideways.
    const furnace = { means: 'furnace', face: 'front', whileWelding: 'on', airCelsius: 14 };
    const [, first] = sectionOf(made({ joint: joint({ heating: furnace }) }), heading).split('\nshell course ') as [
      string,
      string,
    ];
    expect(first).toContain('At the end: warm through');
    const [, least, likely, most] = /at least (\d+) °C of 150 °C, likely (\d+) °C, at most (\d+) °C/.exec(first)!;
    // Steady wall, face at 172, air at 14 (computed from the formula): the far face lies 158 Bi / (1 + Bi) lower.
    // Likely h 15.1 W/(m2 K), k 48.5 W/(m K): 3.8 K. Worst h 18.8, k a fifth less: 5.9 K. Best no loss: 0 K.
    // The readings of the fixture swing by 0.9 K.
    expect(Math.abs(Number(likely) - 168.2)).toBeLessThan(1.6);
    expect(Math.abs(Number(least) - 166.1)).toBeLessThan(1.9);
    expect(Math.abs(Number(most) - 172)).toBeLessThan(1.9);
  });

  it('gives its basis: shape, probes, steel with source and status, far side, start', () => {
    expect(first).toContain('plate, 80 mm from the heated front face to the back face');
    expect(first).toContain('Driven by: Z1 on the heated face');
    expect(first).toMatch(
      /Conducts as: carbon steel, by the analysis; .*20 % either way.*EN 1993-1-2:2005.*\(verified\)/,
    );
    expect(first).toContain('Far side: still air: from the least to the most that it can lose there');
    expect(first).toMatch(/Start: not known inside; 1 K at most are left/);
  });

  it('gives of a part that is not judged the reason, what mends it, and no picture', () => {
    expect(second).toContain(
      'not judged: place a zone probe of shell course 3 at least one thickness (80 mm) from the groove and from the edge of the heater, which has to reach 160 mm',
    );
    expect(second).not.toContain('Coldest point');
    expect(first).toContain('Chart, through shell course 2');
    expect(second).not.toContain('Chart');
  });

  it('tells a gap that was crossed and when both were done, in the units of the job', () => {
    const both = made({
      joint: joint({
        units: 'inch',
        probes: joint().probes.map((each) =>
          each.id === 'Z2' ? { ...each, place: place('shell course 3', 'B', 100) } : each,
        ),
      }),
      silences: [['PB-0041', 120, 160]],
    });
    const said = sectionOf(both, heading);
    expect(said).toMatch(/Gap: 08:59:\d\d to 09:40:\d\d without readings/);
    expect(said).toMatch(/First done at: 2026-11-25 \d\d:\d\d:\d\d UTC\+01:00|Done at: /);
    expect(said).toMatch(/Which soak rule came last: The (core|hold by time) governed/);
    expect(said).toContain('plate, 3.15 in from the heated front face');
    expect(said).not.toMatch(/°C|\d mm\b/);
  });

  it('keeps of a closed joint what it was when it was closed, whatever was entered later', () => {
    const late = made({ extraActs: [[240, 'Ann Example', { kind: 'note', text: 'read the report' }]] });
    expect(late.lastAt - late.closedAt!).toBe(0);
    expect(late.lastAt - late.courses[0]!.at.at(-1)!).toBeGreaterThan(3_600_000);
    expect(sectionOf(late, heading).split('\nshell course ')[1]).toContain('At the end: warm through');
  });

  it('shows what was not asked for as such', () => {
    const said = sectionOf(made({ joint: joint({}, {}) }), heading);
    expect(said).toContain('Asked for: not by the procedure; shown only');
    expect(said).not.toContain('Which soak rule');
  });
});

describe('page one', () => {
  it('has a line for the inside where the procedure asks for it, and none where it does not', () => {
    expect(sectionOf(facts, 'Summary')).toContain('Through the thickness: not judged.');
    expect(sectionOf(facts, 'Summary')).toContain('Cannot be judged');
    expect(sectionOf(made({ joint: joint({}, {}) }), 'Summary')).not.toContain('Through the thickness');
  });
});

describe('the picture', () => {
  const course = facts.courses.find(({ part }) => part === 'shell course 2')!;
  const model = sectionChart(facts, course, 'plate')!;

  it('holds both faces, the middle, and the lowest of the coldest point, told apart without colour, and the minimum', () => {
    expect(model.lines.map(({ name }) => name)).toEqual(['heated face', 'middle', 'far face', leastName]);
    expect(new Set(model.lines.map(({ style }) => lineStyle(style).dash)).size).toBe(4);
    expect(model.limits.map(({ label }) => label)).toEqual(['minimum preheat 150 °C']);
    expect(model.lanes.passes.map(({ label }) => label)).toEqual(['1', '2', '3']);
    const drawn = chartSvg(model);
    for (const name of ['heated face', 'far face', leastName]) expect(drawn).toContain(`>${name}<`);
    expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('is colder the deeper it goes while the face is heated, the lowest below all', () => {
    const at = (line: number): number => model.lines[line]!.runs[0]![20]![1];
    expect(at(0)).toBeGreaterThan(at(1));
    expect(at(1)).toBeGreaterThan(at(2));
    expect(at(2)).toBeGreaterThan(at(3));
  });

  it('is broken where nothing was computed, and nowhere else', () => {
    expect(model.lines.map(({ runs }) => runs.length)).toEqual([1, 1, 1, 1]);
    const silent = made({ silences: [['PB-0041', 60, 90]] });
    const broken = sectionChart(silent, silent.courses[0]!, 'plate')!;
    expect(broken.lines.map(({ runs }) => runs.length)).toEqual([2, 2, 2, 2]);
  });

  it('names the places of a bar, and is absent where nothing was ever computed', () => {
    expect(
      sectionChart(facts, course, 'bar')!
        .lines.map(({ name }) => name)
        .slice(0, 3),
    ).toEqual(['outside', 'half-way in', 'axis']);
    expect(sectionChart(facts, { ...course, at: [], likely: [], coldest: [] }, 'plate')).toBeUndefined();
  });
});
