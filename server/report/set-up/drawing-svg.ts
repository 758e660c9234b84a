/** A view of the joint on paper: section or plan to scale with its scale bar, each probe with number and distance. Points. */
import { fromInches, type UnitSystem } from '../../measure/units.ts';
import type { Sheet } from '../../placing/shapes.ts';
import { sheetOf } from '../../placing/sheet.ts';
import type { Steel, Stretch, Vector, View } from '../../placing/view.ts';
import type { Place } from '../../weld/probe.ts';
import { lengthText } from '../../wording/length.ts';
import { fitted, line, number, path, rectangle, svg, text, widthOf } from '../svg.ts';

export interface DrawingSize {
  readonly width: number;
  readonly heightMost: number;
  /** Size of the letters in the labels. */
  readonly letters: number;
}

export const drawingSvg = (view: View, size: DrawingSize, units: UnitSystem): string => {
  const { letters } = size;
  const label = { width: labelWidth(view, letters, units), height: letters * 2.6, gap: letters * 0.5 };
  const sheet = sheetOf(view, { ...size, label, lead: letters * 2.4, edge: 3 });
  const bar = scaleBar(sheet, letters, units);
  return svg(sheet.width, sheet.height + bar.height, [
    ...sheet.steel.map(steel),
    ...sheet.zoneAreas.map((points) => path(closed(points), { stroke: '#000', width: 0.7, dash: '0.8 2' })),
    ...sheet.weld.map((points) => path(closed(points), { fill: '#fff', stroke: '#000', width: 0.6, dash: '3 1.5' })),
    ...sheet.axes.map(([from, to]) => line(from[0], from[1], to[0], to[1], '#666', 0.4, '9 2.5 2 2.5')),
    ...sheet.zoneLines.map((stretch) => along(stretch, -1.8, 1.6, '0.9 2')),
    ...sheet.heatedLines.map((stretch) => along(stretch, 2.4, 2.2, '5 2.5')),
    ...sheet.heatedAreas.map((points) => path(closed(points), { stroke: '#000', width: 1.3, dash: '5 2.5' })),
    ...sheet.steel.map((one) => partName(one, letters, units)),
    ...sheet.words.map(({ text: words, at: [x, y], anchor, toward }) =>
      text(x, y + letters * 0.35 + (toward?.[1] ?? 0) * letters * 1.1, words, { size: letters * 0.85, anchor }),
    ),
    ...pins(sheet, view, label, letters, units),
    ...bar.parts,
  ]);
};

/** "front 75 mm, 12 o'clock": what stands under the name of a probe. */
export const placeMark = ({ face, distanceMillimetres, clock }: Place, units: UnitSystem): string =>
  `${face} ${lengthText(distanceMillimetres, units)}${clock === undefined ? '' : `, ${clock} o'clock`}`;

const labelWidth = (view: View, letters: number, units: UnitSystem): number =>
  Math.max(
    letters * 9,
    ...view.marks.map(({ probe: { place } }) => widthOf(placeMark(place, units), letters * 0.85) + 5),
  );

const steelGrey = '#ececec';

const steel = ({ points, hole }: Steel): string =>
  path(closed(points) + (hole === undefined ? '' : closed(hole.toReversed())), {
    fill: steelGrey,
    stroke: '#000',
    width: 0.8,
  });

const closed = (points: readonly Vector[]): string =>
  `M${points.map(([x, y]) => `${number(x)} ${number(y)}`).join('L')}Z`;

/** Off the face, or within it. */
const along = ({ from, to, out }: Stretch, off: number, width: number, dash: string): string =>
  line(from[0] + out[0] * off, from[1] + out[1] * off, to[0] + out[0] * off, to[1] + out[1] * off, '#000', width, dash);

/** On a patch of the steel's own grey, so that no dashed line runs through it; in a bore the paper is white already. */
const partName = ({ part, middle, room, upright, hole }: Steel, letters: number, units: UnitSystem): string => {
  if (part === undefined) return '';
  const thick = lengthText(part.thicknessMillimetres, units);
  const long = `${part.side === undefined ? '' : `${part.side}: `}${part.id}, ${thick}`;
  const short = part.side === undefined ? thick : `${part.side}, ${thick}`;
  const words = widthOf(long, letters) <= room ? long : fitted(short, letters, Math.max(room, letters * 6));
  const wide = widthOf(words, letters) + 3;
  const patch =
    hole === undefined || part.side === 'A'
      ? rectangle(middle[0] - wide / 2, middle[1] - letters * 0.7, wide, letters * 1.4, { fill: steelGrey })
      : '';
  const written = patch + text(middle[0], middle[1] + letters * 0.35, words, { size: letters, anchor: 'middle' });
  return upright === true
    ? `<g transform="rotate(-90 ${number(middle[0])} ${number(middle[1])})">${written}</g>`
    : written;
};

const pins = (
  sheet: Sheet,
  view: View,
  label: { readonly width: number; readonly height: number },
  letters: number,
  units: UnitSystem,
): string[] => {
  const places = new Map(view.marks.map(({ probe }) => [probe.id, probe.place]));
  return [
    ...sheet.pins.map(({ leader }) =>
      path(`M${leader.map(([x, y]) => `${number(x)} ${number(y)}`).join('L')}`, { stroke: '#000', width: 0.4 }),
    ),
    ...sheet.pins.flatMap(({ probe, tip, label: [x, y], hidden }) => [
      dot(tip, letters * 0.3, hidden),
      rectangle(x, y, label.width, label.height, { fill: '#fff', stroke: '#000', strokeWidth: 0.5 }),
      text(x + 2.5, y + letters * 1.1, fitted(probe, letters * 1.08, label.width - 4), {
        size: letters,
        weight: 'bold',
      }),
      text(x + 2.5, y + letters * 2.2, placeMark(places.get(probe)!, units), { size: letters * 0.85 }),
    ]),
  ];
};

const dot = ([x, y]: Vector, radius: number, hidden: boolean): string =>
  `<circle cx="${number(x)}" cy="${number(y)}" r="${number(radius)}" fill="${hidden ? '#fff' : '#000'}" stroke="#000" stroke-width="0.8"/>`;

const scaleBar = (
  { perMillimetre, height }: Sheet,
  letters: number,
  units: UnitSystem,
): { readonly height: number; readonly parts: string[] } => {
  const steps =
    units === 'inch' ? [0.25, 0.5, 1, 2, 4, 10, 20, 40].map(fromInches) : [5, 10, 20, 50, 100, 200, 500, 1000];
  const length = steps.find((each) => each * perMillimetre >= 40) ?? steps.at(-1)!;
  const y = height + letters * 0.6;
  const end = 4 + length * perMillimetre;
  return {
    height: letters * 1.6,
    parts: [
      line(4, y, end, y, '#000', 0.8),
      line(4, y - 2, 4, y + 2),
      line(end, y - 2, end, y + 2),
      text(end + 4, y + letters * 0.35, lengthText(length, units), { size: letters * 0.9 }),
    ],
  };
};
