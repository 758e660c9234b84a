/**
 * The chart as plain data: what to draw, in numbers and text, and nothing about how. Chart.js only puts it
 * on a canvas; the table behind it is made from the same tracks.
 */
import type { UnitSystem } from '../../server/measure/units.ts';
import type { ProbeUse } from '../../server/weld/probe.ts';
import type { Zone } from '../format/time.ts';
import { type Scale, type Tick, timeTicks, valueScale } from './axis.ts';
import { type BandPoint, bandOf } from './band.ts';
import type { Marks } from './marks.ts';
import { type LineStyle, lineStyle } from './series-style.ts';
import { isGap, type Point, pointsOf, type Tracks } from './tracks.ts';
import type { Stretch } from './window.ts';

export interface ChartProbe {
  readonly probe: string;
  readonly use: ProbeUse;
}

export interface Line {
  readonly probe: string;
  readonly style: LineStyle;
  readonly points: readonly Point[];
  /** Where the label stands: the newest value in the stretch. */
  readonly end?: { readonly x: number; readonly y: number };
}

export interface Picture {
  readonly stretch: Stretch;
  readonly timeTicks: readonly Tick[];
  readonly scale: Scale;
  readonly lines: readonly Line[];
  readonly marks: Marks;
  /** Uncertainty about one of the lines; absent where none is kept. */
  readonly band?: {
    readonly probe: string;
    readonly colour: string;
    readonly runs: readonly (readonly BandPoint[])[];
  };
  /** Stretches in which no probe gave a reading. */
  readonly blanks: readonly Stretch[];
}

export interface PictureInput {
  readonly tracks: Tracks;
  readonly probes: readonly ChartProbe[];
  readonly hidden: ReadonlySet<string>;
  readonly stretch: Stretch;
  readonly marks: Marks;
  readonly theme: 'light' | 'dark';
  readonly width: number;
  readonly height: number;
  readonly units: UnitSystem;
  readonly zone?: Zone;
  /** The line that its uncertainty is shown of. */
  readonly banded?: string | undefined;
}

export const pictureOf = (input: PictureInput): Picture => {
  const { tracks, probes, hidden, stretch, marks, theme } = input;
  const lines = probes.flatMap(({ probe, use }, index): Line[] => {
    if (hidden.has(probe)) return [];
    const points = pointsOf(tracks.pieces.get(probe) ?? [], tracks.stepMilliseconds, stretch.from, stretch.to);
    const end = points.findLast((point) => point.y !== null && point.x >= stretch.from);
    return [
      {
        probe,
        style: lineStyle(index, use, theme),
        points,
        ...(end === undefined ? {} : { end: { x: end.x, y: end.y as number } }),
      },
    ];
  });
  const band = bandIn(input, lines);
  const values = [
    ...lines.flatMap((line) => line.points.flatMap((point) => (point.y === null ? [] : [point.y]))),
    ...(band?.runs ?? []).flatMap((run) => run.flatMap(({ low, high }) => [low, high])),
  ];
  const limits = marks.limits.map((limit) => limit.celsius);
  return {
    stretch,
    timeTicks: timeTicks(stretch.from, stretch.to, Math.max(2, Math.floor(input.width / 90)), input.zone),
    scale: valueScale(extremes(values), limits, Math.max(3, Math.floor(input.height / 44)), input.units),
    lines,
    ...(band === undefined ? {} : { band }),
    marks: {
      limits: marks.limits,
      passes: marks.passes.filter((pass) => pass.from <= stretch.to && (pass.to ?? stretch.to) >= stretch.from),
      moments: marks.moments.filter((moment) => moment.at >= stretch.from && moment.at <= stretch.to),
    },
    blanks: blanksOf(tracks, stretch),
  };
};

const bandIn = ({ tracks, banded, stretch }: PictureInput, lines: readonly Line[]): Picture['band'] => {
  const line = lines.find(({ probe }) => probe === banded);
  if (line === undefined) return undefined;
  const pieces = tracks.pieces.get(line.probe) ?? [];
  const runs = bandOf(pieces, tracks.stepMilliseconds, stretch.from, stretch.to);
  return runs.length === 0 ? undefined : { probe: line.probe, colour: line.style.colour, runs };
};

/** A spread over many numbers would overflow the stack; two are enough. */
const extremes = (values: readonly number[]): number[] => {
  if (values.length === 0) return [];
  let low = values[0]!;
  let high = low;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
};

/** Where nothing at all came in: told apart from one probe's gap, since then nobody was watching. */
export const blanksOf = (tracks: Tracks, stretch: Stretch): Stretch[] => {
  const covered: Stretch[] = [];
  for (const track of tracks.pieces.values()) {
    for (const piece of track)
      if (!isGap(piece))
        covered.push({ from: piece.at, to: Math.max(piece.lastAt, piece.at + tracks.stepMilliseconds) });
  }
  covered.sort((a, b) => a.from - b.from);
  const blanks: Stretch[] = [];
  let until: number | undefined;
  for (const { from, to } of covered) {
    if (until !== undefined && from - until > tracks.gapAfterMilliseconds) blanks.push({ from: until, to: from });
    until = Math.max(until ?? to, to);
  }
  if (until !== undefined && stretch.to - until > tracks.gapAfterMilliseconds)
    blanks.push({ from: until, to: stretch.to });
  return blanks
    .filter((blank) => blank.to > stretch.from && blank.from < stretch.to)
    .map((blank) => ({ from: Math.max(blank.from, stretch.from), to: Math.min(blank.to, stretch.to) }));
};
