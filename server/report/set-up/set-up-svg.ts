/** Draws the set-up: the section, where it was heated, each probe at its place, and clock positions on a pipe. */
import { listText } from '../../wording/list.ts';
import { plain } from '../joint-words.ts';
import { fitted, line, number, path, rectangle, spread, svg, text, widthOf } from '../svg.ts';
import { type PlacedPoint, pointText, type SectionDrawing, type SideDrawing } from './section-drawing.ts';

const width = 511;
const grooveHalf = 7;
const labelRow = 9;

export const setUpSvg = (drawing: SectionDrawing): string => {
  const clockWidth = drawing.clock.length === 0 ? 0 : 130;
  const sectionWidth = width - clockWidth;
  const middle = sectionWidth / 2;
  const scale = Math.min((middle - grooveHalf - 6) / drawing.reachMillimetres, 120 / drawing.thickestMillimetres);
  const rows = (face: 'front' | 'back'): number =>
    Math.max(0, ...drawing.sides.map(({ points }) => points.filter((point) => point.face === face).length));
  const top = 14 + rows('front') * labelRow + 6;
  const bottom = top + drawing.thickestMillimetres * scale;
  const height = Math.max(bottom + rows('back') * labelRow + 24, drawing.clock.length === 0 ? 0 : 130);
  const parts = drawing.sides.flatMap((side) => drawSide(side, { middle, top, scale, drawing, height }));
  return svg(width, height, [
    ...parts,
    path(
      `M${number(middle - grooveHalf)} ${number(top)}L${number(middle - 1.5)} ${number(bottom)}L${number(middle + 1.5)} ${number(bottom)}L${number(middle + grooveHalf)} ${number(top)}Z`,
      { fill: '#fff', stroke: '#000', width: 0.6 },
    ),
    ...heat(drawing, { middle, top, scale }),
    ...drawing.sides.map((side) => sideTitle(side, sectionWidth)),
    text(middle, 8, 'front face, toward the welder', { anchor: 'middle', size: 6.5 }),
    text(middle, height - 3, 'back face', { anchor: 'middle', size: 6.5 }),
    ...scaleBar(scale, height),
    ...(drawing.clock.length === 0 ? [] : clockFace(drawing, width - clockWidth / 2, Math.min(height / 2, 70))),
  ]);
};

interface Frame {
  readonly middle: number;
  readonly top: number;
  readonly scale: number;
  readonly drawing: SectionDrawing;
  readonly height: number;
}

const drawSide = (side: SideDrawing, frame: Frame): string[] => {
  const { middle, top, scale, drawing } = frame;
  const sign = side.side === 'A' ? -1 : 1;
  const edge = middle + sign * grooveHalf;
  const far = edge + sign * drawing.reachMillimetres * scale;
  const thick = side.thicknessMillimetres * scale;
  const x = Math.min(middle, far);
  return [
    rectangle(x, top, Math.abs(far - middle), thick, { fill: '#e9e9e9' }),
    line(middle, top, far, top, '#000', 0.8),
    line(middle, top + thick, far, top + thick, '#000', 0.8),
    path(
      `M${number(far)} ${number(top)}l${-2 * sign} ${number(thick / 3)}l${4 * sign} ${number(thick / 3)}l${-2 * sign} ${number(thick / 3)}`,
      {
        stroke: '#000',
        width: 0.5,
      },
    ),
    ...(['front', 'back'] as const).flatMap((face) => drawPoints(side, face, sign, edge, thick, frame)),
  ];
};

/** Labels stand in rows, the place nearest to the groove in the row nearest to the part, each with its leader. */
const drawPoints = (
  side: SideDrawing,
  face: 'front' | 'back',
  sign: number,
  edge: number,
  thick: number,
  frame: Frame,
): string[] => {
  const { top, scale, drawing, middle } = frame;
  const points = side.points.filter((point) => point.face === face);
  const surface = face === 'front' ? top : top + thick;
  const away = face === 'front' ? -1 : 1;
  const drawn = points.map((point, row) => {
    const x = edge + sign * Math.min(point.distanceMillimetres, drawing.reachMillimetres) * scale;
    const y = surface + away * (10 + row * labelRow);
    const words = label(point, frame.middle - 8);
    const long = widthOf(words, 7) * 0.95;
    // Toward the groove; moved outward where that would cross it.
    const anchor = sign < 0 ? Math.min(x + 3, middle - 4 - long) : Math.max(x - 3, middle + 4 + long);
    const beside = anchor === x - sign * 3;
    const end = beside ? y + away * 3 : y - away * 3.4;
    return {
      leader: [
        line(x, surface, x, end, '#000', 0.4),
        path(
          `M${number(x - 2.2)} ${number(surface + away * 4)}L${number(x)} ${number(surface)}L${number(x + 2.2)} ${number(surface + away * 4)}Z`,
          { fill: '#000' },
        ),
      ],
      words: [
        rectangle(sign < 0 ? anchor : anchor - long, y - 3.4, long, 6.6, { fill: '#fff' }),
        text(anchor, y + 2.4, words, { anchor: sign < 0 ? 'start' : 'end' }),
      ],
    };
  });
  // Words last, on white: a leader passes behind them.
  return [...drawn.flatMap(({ leader }) => leader), ...drawn.flatMap(({ words }) => words)];
};

const sideTitle = ({ side, part, thicknessMillimetres }: SideDrawing, sectionWidth: number): string => {
  const words = `Side ${side}: ${part}, ${plain(thicknessMillimetres)} mm`;
  const place = { weight: 'bold', anchor: side === 'A' ? 'start' : 'end' };
  return text(side === 'A' ? 2 : sectionWidth - 2, 8, fitted(words, 7.5, sectionWidth / 2 - 62), place);
};

/** As many names as there is room for; the distance is never cut. */
const label = (point: PlacedPoint, room: number): string => {
  const tries = [4, 3, 2, 1, 0].map((names) => pointText(point, names));
  return tries.find((words) => widthOf(words, 7) <= room) ?? tries.at(-1)!;
};

const heat = (
  { heatedFaces, reachMillimetres, sides }: SectionDrawing,
  { middle, top, scale }: Pick<Frame, 'middle' | 'top' | 'scale'>,
): string[] =>
  heatedFaces.flatMap((face) =>
    sides.map(({ side, thicknessMillimetres }) => {
      const sign = side === 'A' ? -1 : 1;
      const far = middle + sign * (grooveHalf + reachMillimetres * scale);
      const y = face === 'front' ? top + 1.6 : top + thicknessMillimetres * scale - 1.6;
      return line(middle + sign * (grooveHalf + 2), y, far - sign * 4, y, '#000', 1.8, '3 2');
    }),
  );

const scaleBar = (scale: number, height: number): string[] => {
  const length = [10, 20, 50, 100, 200, 500, 1000].find((each) => each * scale >= 40) ?? 1000;
  const y = height - 6;
  return [
    line(4, y, 4 + length * scale, y, '#000', 0.8),
    line(4, y - 2, 4, y + 2),
    line(4 + length * scale, y - 2, 4 + length * scale, y + 2),
    text(7 + length * scale, y + 2.4, `${length} mm`, { size: 6.5 }),
  ];
};

const clockFace = ({ clock }: SectionDrawing, x: number, y: number): string[] => {
  const radius = 28;
  const at = (hour: number, r: number): readonly [number, number] => [
    x + r * Math.sin((hour / 6) * Math.PI),
    y - r * Math.cos((hour / 6) * Math.PI),
  ];
  const sides = ([true, false] as const).flatMap((onRight) => {
    const group = clock.filter(({ hour }) => (hour > 0 && hour <= 6) === onRight);
    const heights = spread(
      group.map(({ hour }) => at(hour, radius + 8)[1]),
      8,
      8,
      y + radius + 24,
    );
    return group.flatMap(({ hour, probes }, index) => {
      const [px, py] = at(hour, radius);
      const labelX = onRight ? x + radius + 6 : x - radius - 6;
      return [
        path(`M${number(px - 2)} ${number(py - 2)}h4v4h-4Z`, { fill: '#000' }),
        line(px, py, labelX, heights[index]!, '#000', 0.4),
        text(labelX + (onRight ? 1 : -1), heights[index]! + 2.4, clockLabel(probes), {
          size: 6.5,
          anchor: onRight ? 'start' : 'end',
        }),
      ];
    });
  });
  return [
    `<circle cx="${number(x)}" cy="${number(y)}" r="${radius}" fill="none" stroke="#000" stroke-width="0.8"/>`,
    ...([12, 3, 6, 9] as const).map((hour) => {
      const [tx, ty] = at(hour, radius - 7);
      return text(tx, ty + 2.4, `${hour}`, { size: 6.5, anchor: 'middle' });
    }),
    text(x, y + radius + 20, 'clock positions', { size: 6.5, anchor: 'middle' }),
    ...sides,
  ];
};

const clockLabel = (probes: readonly string[]): string => {
  const names = listText(probes);
  return widthOf(names, 6.5) <= 27 ? names : probes.length === 1 ? fitted(names, 6.5, 27) : `${probes.length} probes`;
};

export const setUpAlternative = ({
  sides,
  heatedFaces,
  heatedBy,
  jointType,
  clock,
  unplaced,
}: SectionDrawing): string =>
  [
    `Section of the ${jointType} joint, heated on ${heatedFaces.length === 2 ? 'both faces' : `the ${heatedFaces[0]} face`} by ${heatedBy}.`,
    ...sides.map(({ side, part, thicknessMillimetres, points }) => {
      const placed = points.map((point) => `${pointText(point)} on the ${point.face} face`);
      return `Side ${side}: part ${part}, ${plain(thicknessMillimetres)} mm thick; ${placed.length === 0 ? 'no probe' : placed.join(', ')}.`;
    }),
    ...(clock.length === 0
      ? []
      : [
          `Clock positions: ${clock.map(({ hour, probes }) => `${listText(probes)} at ${hour === 0 ? 12 : hour}`).join(', ')}.`,
        ]),
    ...(unplaced.length === 0 ? [] : [`Without a place: ${listText(unplaced)}.`]),
  ].join(' ');
