/**
 * Small spaces of the judge: one course of readings and acts, a scenario with an X in it (scenario.ts), played with X below,
 * at and above a limit, and each of them with the place that reads it believed, distrusted, faulty or not read. What is to
 * come of each stands in a table that was written by hand.
 */
import { readScenario, type Scenario } from './scenario.ts';
import { clock } from './scenario-pass.ts';

/** Columns of the table, in its order. */
export const qualities = ['good', 'distrusted', 'open circuit', 'no reading', 'silent'] as const;
export type SpaceQuality = (typeof qualities)[number];

/** P passes, F fails, ? cannot be judged. */
export type Outcome = 'P' | 'F' | '?';

export interface Course {
  readonly name: string;
  /** As it stands, without what the others of its file share. */
  readonly facts: ReadonlyMap<string, readonly string[]>;
  readonly rows: readonly string[];
}

/** Sections "== name" of a file; a line "key: ..." above the first of them holds for all that do not state the key. */
export function readCourses(text: string): Course[] {
  const [shared, ...sections] = text.split(/^== /m);
  const common = factsOf(shared!.split('\n'));
  return sections.map((section) => {
    const [name, ...lines] = section.split('\n');
    const table = lines.findIndex((line) => line.startsWith('time'));
    const own = factsOf(lines.slice(0, table));
    const rows = lines.slice(table).filter((line) => line.trim() !== '');
    return { name: name!.trim(), facts: new Map([...common, ...own]), rows };
  });
}

const factsOf = (lines: readonly string[]): Map<string, string[]> => {
  const facts = new Map<string, string[]>();
  for (const line of lines) {
    const [, key, value] = /^([^:]+):(.*)$/.exec(line) ?? [];
    if (key !== undefined) facts.set(key, [...(facts.get(key) ?? []), value!.trim()]);
  }
  return facts;
};

/** What X stands for: below, at and above the limit. */
export const valuesOf = ({ facts }: Course): string[] => facts.get('X')![0]!.split(/\s+/);

/** The kinds of finding by which it fails, and those by which it cannot be judged. */
export function toldOf({ facts }: Course): { fails: string[]; open: string[] } {
  const [fails, open] = (facts.get('told')?.[0] ?? '|')
    .split('|')
    .map((each) => each.split(',').map((kind) => kind.trim()));
  return { fails: fails!.filter(Boolean), open: open!.filter(Boolean) };
}

export const conditionOf = ({ facts }: Course): string | undefined =>
  facts.get('asks')?.[0]?.replace(/^condition /, '');

/** "place: T2 from 1:10 to 3:00": where X is read, and when it is no longer read well. */
export function placeOf({ facts }: Course): { place: string; from: number; to: number } | undefined {
  const [, place, from, to] = /^(\S+) from (\S+)(?: to (\S+))?$/.exec(facts.get('place')?.[0] ?? '') ?? [];
  return place === undefined
    ? undefined
    : { place, from: clock(from!), to: to === undefined ? Number.POSITIVE_INFINITY : clock(to) };
}

export function play(course: Course, value: string, quality: SpaceQuality): Scenario {
  const set = (text: string): string => text.replace(/\bX\b/g, value);
  const header = [...course.facts].flatMap(([key, lines]) => lines.map((line) => `${key}: ${set(line)}`));
  const [columns, ...rows] = course.rows;
  const lost = withQuality(columns!, rows.map(set), placeOf(course), quality);
  return readScenario([`# ${course.name}`, ...header, columns, ...lost, 'expect'].join('\n'));
}

const word: { readonly [quality in SpaceQuality]?: string } = {
  'open circuit': 'open',
  'no reading': '-',
  silent: '.',
};

function withQuality(
  columns: string,
  rows: readonly string[],
  lost: ReturnType<typeof placeOf>,
  quality: SpaceQuality,
): string[] {
  if (lost === undefined || quality === 'good') return [...rows];
  const column = columns.split(/\s+/).indexOf(lost.place);
  const last = columns.split(/\s+/).filter((each) => each !== 'act').length;
  const isLost = (row: string): boolean => {
    const at = clock(row.split(/\s+/)[0]!);
    return at >= lost.from && at < lost.to;
  };
  return rows.map((row, index) => {
    const [cells, act] = [row.trim().split(/\s+/).slice(0, last), row.trim().split(/\s+/).slice(last).join(' ')];
    const isNow = isLost(row);
    const wasBefore = index > 0 && isLost(rows[index - 1]!);
    if (quality === 'distrusted') {
      if (isNow === wasBefore) return row;
      const said = `${isNow ? 'distrust' : 'trust'} ${lost.place}`;
      return [...cells, [said, act].filter((each) => each !== '').join('; ')].join(' ');
    }
    return [...cells.map((cell, at) => (isNow && at === column ? word[quality]! : cell)), act].join(' ');
  });
}
