/** One drawing on the screen: section or plan, to scale, each probe with its label and, where there is one, its live value. */
import type { AlarmPriority } from '../../../server/judgement/alarm-rules.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Sheet } from '../../../server/placing/shapes.ts';
import type { Stretch, Vector } from '../../../server/placing/view.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { placeMark } from '../../format/place.ts';
import type { ProbeRow } from '../../state/probe-rows.ts';
import { labelHeight, partName } from './on-screen.ts';

interface Props {
  readonly joint: Joint;
  readonly sheet: Sheet;
  readonly title: string;
  /** What the drawing shows, for whoever cannot see it. */
  readonly spoken: string;
  readonly rows: ReadonlyMap<string, ProbeRow> | undefined;
  readonly alarms: ReadonlyMap<string, AlarmPriority> | undefined;
  readonly heatOn: boolean;
}

export function Drawing({ joint, sheet, title, spoken, rows, alarms, heatOn }: Props) {
  const heater = heatOn ? 'heater on' : 'heater';
  return (
    <svg
      width={sheet.width}
      height={sheet.height}
      viewBox={`0 0 ${sheet.width} ${sheet.height}`}
      role="img"
      aria-label={spoken}
    >
      <title>{title}</title>
      {sheet.steel.map(({ points, hole }) => (
        <path key={`${points[0]}`} class="steel" fill-rule="evenodd" d={closed(points) + closed(hole ?? [])} />
      ))}
      {sheet.zoneAreas.map((points) => (
        <path key={`${points[0]}`} class="zone" d={closed(points)} />
      ))}
      {sheet.weld.map((points) => (
        <path key={`${points[0]}`} class="weld" d={closed(points)} />
      ))}
      {sheet.axes.map(([from, to]) => (
        <line key={`${from}`} class="axis" x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
      ))}
      {sheet.zoneLines.map((stretch) => (
        <Line key={`${stretch.from}${stretch.out}`} name="zone-line" stretch={stretch} off={-4} />
      ))}
      {sheet.heatedLines.map((stretch) => (
        <Line key={`${stretch.from}${stretch.out}`} name={heater} stretch={stretch} off={6} />
      ))}
      {sheet.heatedAreas.map((points) => (
        <path key={`${points[0]}`} class="heated-area" d={closed(points)} />
      ))}
      {sheet.steel.map((steel) => (
        <text
          key={`${steel.middle}`}
          class={steel.hole === undefined ? 'part-name on-steel' : 'part-name'}
          x={steel.middle[0]}
          y={steel.middle[1] + 5}
          {...(steel.upright === true ? { transform: `rotate(-90 ${steel.middle[0]} ${steel.middle[1]})` } : {})}
          text-anchor="middle"
        >
          {partName(steel, unitsOf(joint))}
        </text>
      ))}
      {sheet.words.map(({ text, at: [x, y], anchor, toward }) => (
        <text key={text} class="face-name" x={x} y={y + 5 + (toward?.[1] ?? 0) * 13} text-anchor={anchor}>
          {text}
        </text>
      ))}
      {sheet.pins.map((pin) => (
        <polyline key={pin.probe} class="leader" points={pin.leader.map(pair).join(' ')} />
      ))}
      {sheet.pins.map((pin) => (
        <PinLabel
          key={pin.probe}
          width={sheet.labelWidth}
          pin={pin}
          joint={joint}
          row={rows?.get(pin.probe)}
          live={rows !== undefined}
          alarm={alarms?.get(pin.probe)}
        />
      ))}
    </svg>
  );
}

/** Drawn a few pixels off the face, or within it. */
function Line({ name, stretch, off }: { readonly name: string; readonly stretch: Stretch; readonly off: number }) {
  const { from, to, out } = stretch;
  const [dx, dy] = [out[0] * off, out[1] * off];
  return <line class={name} x1={from[0] + dx} y1={from[1] + dy} x2={to[0] + dx} y2={to[1] + dy} />;
}

function PinLabel({
  pin,
  joint,
  row,
  live,
  alarm,
  width,
}: {
  readonly pin: Sheet['pins'][number];
  readonly joint: Joint;
  readonly row: ProbeRow | undefined;
  readonly live: boolean;
  readonly alarm: AlarmPriority | undefined;
  readonly width: number;
}) {
  const [x, y] = pin.label;
  const probe = joint.probes.find((each) => each.id === pin.probe);
  const place = probe?.place === undefined ? '' : placeMark(probe.place, unitsOf(joint));
  const state = !live ? 'plan' : (row?.state ?? 'none');
  const value = !live
    ? (probe?.use ?? '')
    : row === undefined
      ? 'no reading'
      : row.state === 'stale'
        ? `${row.age} old`
        : row.value;
  const long = !live || value.length > 8;
  return (
    <g
      class={`pin ${state} ${row?.beyond === 'above limit' ? 'beyond' : ''} ${row?.mark === 'answers' ? 'answers' : ''} ${pin.hidden ? 'behind' : ''}`}
    >
      <circle cx={pin.tip[0]} cy={pin.tip[1]} r="5" />
      <rect x={x} y={y} width={width} height={labelHeight} rx="4" />
      <text class="pin-name" x={x + 8} y={y + 16}>
        {fitted(pin.probe, width - 16 - (row?.mark === undefined ? 0 : 56))}
      </text>
      {row?.mark !== undefined && (
        <text class="pin-mark" x={x + width - 8} y={y + 16} text-anchor="end">
          {row.mark}
        </text>
      )}
      <text class={long ? 'pin-value long' : 'pin-value'} x={x + 8} y={y + (long ? 36 : 39)}>
        {value}
        {row !== undefined && arrow[row.direction] !== '' && <tspan class="pin-arrow"> {arrow[row.direction]}</tspan>}
      </text>
      <text class="pin-place" x={x + 8} y={y + 55}>
        {place}
      </text>
      {alarm !== undefined && (
        <>
          <path class={`pin-alarm ${alarm}`} d={alarmSign(x + width - 14, y + 34, alarm)} />
          <text class="pin-alarm-sign" x={x + width - 14} y={y + 40} text-anchor="middle">
            !
          </text>
        </>
      )}
    </g>
  );
}

/** A name that is longer than its label, cut with a sign that it is. About 8.5 px a letter. */
const fitted = (name: string, room: number): string =>
  name.length * 8.5 <= room ? name : `${name.slice(0, Math.max(1, Math.floor(room / 8.5) - 1))}\u2026`;

/** The shapes of the list of alarms: triangle, diamond, disc. */
const alarmSign = (x: number, y: number, priority: AlarmPriority): string => {
  if (priority === 'high') return `M${x},${y - 10}l11,19h-22z`;
  if (priority === 'medium') return `M${x},${y - 10}l10,10l-10,10l-10,-10z`;
  return `M${x - 8},${y}a8,8 0 1 0 16,0a8,8 0 1 0 -16,0z`;
};

const arrow = { up: '↗', down: '↘', level: '→', unknown: '' } as const;

const closed = (points: readonly Vector[]): string => (points.length === 0 ? '' : `M${points.map(pair).join('L')}Z`);
const pair = ([x, y]: Vector): string => `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`;
