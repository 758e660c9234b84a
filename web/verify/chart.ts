/** The whole job as a drawing: the temperature of each probe as its instrument gave it, passes as bands, a gap as a gap. */
import type { EntryText } from '../../server/proof/rules-script.ts';
import { textScans } from '../../server/proof/scans-of-texts.ts';

const width = 960;
const height = 420;
const left = 52;
const foot = 40;
const dashes = ['', '8 4', '2 4', '12 4 2 4', '4 2', '16 6'];
const inks = ['#000', '#0b5394', '#a33b00', '#3d6b00', '#6a1b7a', '#555'];

interface Point {
  readonly at: number;
  readonly celsius: number | undefined;
}

export const chartOf = (texts: readonly EntryText[]): SVGElement | undefined => {
  const courses = coursesOf(texts);
  const all = [...courses.values()].flat();
  const read = all.flatMap(({ celsius }) => (celsius === undefined ? [] : [celsius]));
  if (read.length === 0) return undefined;
  const [from, to] = [least(all.map(({ at }) => at)), greatest(all.map(({ at }) => at))];
  const top = Math.ceil(greatest(read) / 50 + 0.2) * 50;
  const low = Math.min(0, Math.floor(least(read) / 50) * 50);
  const x = (at: number): number => left + ((at - from) / Math.max(1, to - from)) * (width - left - 10);
  const y = (celsius: number): number => 10 + ((top - celsius) / (top - low)) * (height - foot - 10);
  const drawing = element('svg', { viewBox: `0 0 ${width} ${height + 22 * courses.size}`, role: 'img' });
  drawing.append(named('title', `Temperatures of ${courses.size} probes, ${timeText(from)} to ${timeText(to)}`));
  for (const [start, end] of passesOf(texts, to))
    drawing.append(
      element('rect', {
        x: x(start),
        y: 10,
        width: Math.max(1, x(end) - x(start)),
        height: height - foot - 10,
        fill: '#ddd',
      }),
    );
  for (let celsius = low; celsius <= top; celsius += 50)
    drawing.append(
      element('line', { x1: left, x2: width - 10, y1: y(celsius), y2: y(celsius), stroke: '#bbb' }),
      named('text', `${celsius} °C`, { x: 0, y: y(celsius) + 4, 'font-size': 12 }),
    );
  for (let step = 0; step <= 4; step += 1) {
    const at = from + ((to - from) * step) / 4;
    const anchor = step === 4 ? 'end' : step === 0 ? 'start' : 'middle';
    drawing.append(named('text', timeText(at), { x: x(at), y: height - 18, 'font-size': 12, 'text-anchor': anchor }));
  }
  [...courses].forEach(([probe, points], index) => {
    const look = {
      fill: 'none',
      stroke: inks[index % inks.length]!,
      'stroke-dasharray': dashes[index % dashes.length]!,
    };
    drawing.append(element('path', { d: pathOf(points, x, y), 'stroke-width': 1.5, ...look }));
    const line = height + 22 * index;
    drawing.append(element('line', { x1: left, x2: left + 60, y1: line, y2: line, 'stroke-width': 2, ...look }));
    drawing.append(named('text', probe, { x: left + 70, y: line + 4, 'font-size': 13 }));
  });
  return drawing;
};

const coursesOf = (texts: readonly EntryText[]): Map<string, Point[]> => {
  const courses = new Map<string, Point[]>();
  for (const { measuredAt, values } of textScans(texts))
    for (const value of values) {
      const points = courses.get(value.probe) ?? [];
      points.push({ at: measuredAt, celsius: value.temperature === undefined ? undefined : value.temperature / 1000 });
      courses.set(value.probe, points);
    }
  for (const points of courses.values()) points.sort((a, b) => a.at - b.at);
  return courses;
};

/** Least and greatest of each column of the drawing; the line ends where readings are missing for three usual steps. */
const pathOf = (points: readonly Point[], x: (at: number) => number, y: (celsius: number) => number): string => {
  const steps = points.slice(1).map(({ at }, index) => at - points[index]!.at);
  const usual = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  let path = '';
  let last: number | undefined;
  for (let index = 0; index < points.length; ) {
    const { at, celsius } = points[index]!;
    if (celsius === undefined) {
      last = undefined;
      index += 1;
      continue;
    }
    const column = Math.floor(x(at));
    let [low, high, end] = [celsius, celsius, at];
    const begins: string = last === undefined || at - last > 3 * usual ? 'M' : 'L';
    for (index += 1; index < points.length; index += 1) {
      const next = points[index]!;
      if (next.celsius === undefined || Math.floor(x(next.at)) !== column || next.at - end > 3 * usual) break;
      [low, high, end] = [Math.min(low, next.celsius), Math.max(high, next.celsius), next.at];
    }
    path += `${begins}${column} ${y(low).toFixed(1)}L${column} ${y(high).toFixed(1)}`;
    last = end;
  }
  return path;
};

const passesOf = (texts: readonly EntryText[], end: number): [number, number][] => {
  const passes: [number, number][] = [];
  for (const [text] of texts) {
    const { at, kind, class: of } = JSON.parse(text) as { at: number; kind: string; class: string };
    if (of !== 'input') continue;
    if (kind === 'pass start') passes.push([at, end]);
    const last = passes.at(-1);
    if (kind === 'pass end' && last !== undefined) last[1] = at;
  }
  return passes;
};

const least = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.min(a, b));
const greatest = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.max(a, b));
const timeText = (at: number): string => `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;

const element = (name: string, attributes: Readonly<Record<string, string | number>> = {}): SVGElement => {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made;
};
const named = (name: string, text: string, attributes: Readonly<Record<string, string | number>> = {}): SVGElement => {
  const made = element(name, attributes);
  made.textContent = text;
  return made;
};
