/** The cross-section on the screen: parts to scale, heated face, each probe at its place with its live value. */
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { placeMark } from '../../format/place.ts';
import type { ProbeRow } from '../../state/probe-rows.ts';
import type { Vector } from './frames.ts';
import { label, type Pin } from './pins.ts';
import { planOf } from './plan.ts';

interface Props {
  readonly joint: Joint;
  /** Live values by probe; absent while a joint is being entered. */
  readonly rows?: ReadonlyMap<string, ProbeRow>;
  readonly heat?: 'on' | 'off' | 'not entered';
}

export function Section({ joint, rows, heat }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useSignal(640);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined && entry.contentRect.width > 0)
        width.value = Math.max(300, Math.floor(entry.contentRect.width));
    });
    if (box.current !== null) watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  const plan = useMemo(() => planOf(joint, width.value), [joint, width.value]);
  const on = heat === 'on';
  return (
    <div class="section" ref={box}>
      <svg
        width={plan.width}
        height={plan.height}
        viewBox={`0 0 ${plan.width} ${plan.height}`}
        role="img"
        aria-label={spoken(joint, rows)}
      >
        <title>Cross-section with the probes at their places</title>
        {plan.outlines.map((outline) => (
          <polygon key={outline.text + outline.points[0]?.[0]} class="steel" points={path(outline.points)} />
        ))}
        <polygon class="weld" points={path(plan.weld)} />
        {plan.axis !== undefined && (
          <line class="axis" x1={plan.axis[0][0]} y1={plan.axis[0][1]} x2={plan.axis[1][0]} y2={plan.axis[1][1]} />
        )}
        {plan.heaters.map(([from, to]) => (
          <line key={`${from}`} class={on ? 'heater on' : 'heater'} x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
        ))}
        {plan.outlines.map((outline) => (
          <text
            key={outline.text}
            class="part-name"
            x={outline.middle[0]}
            y={outline.middle[1] + 5}
            {...(outline.upright === true
              ? { transform: `rotate(-90 ${outline.middle[0]} ${outline.middle[1]})` }
              : {})}
            text-anchor="middle"
          >
            {outline.text}
          </text>
        ))}
        {plan.faces.map((face) => (
          <text key={face.text} class="face-name" x={face.at[0]} y={face.at[1]} text-anchor={face.anchor}>
            {face.text}
          </text>
        ))}
        {plan.pins.map((pin) => (
          <polyline key={pin.probe} class="leader" points={path(pin.leader)} />
        ))}
        {plan.pins.map((pin) => (
          <PinLabel
            width={plan.labelWidth}
            key={pin.probe}
            pin={pin}
            joint={joint}
            row={rows?.get(pin.probe)}
            live={rows !== undefined}
          />
        ))}
      </svg>
      <p class="aside">Drawn to scale, groove schematic. {heating(joint, heat)}</p>
    </div>
  );
}

function PinLabel({
  pin,
  joint,
  row,
  live,
  width,
}: {
  readonly pin: Pin;
  readonly joint: Joint;
  readonly row: ProbeRow | undefined;
  readonly live: boolean;
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
      class={`pin ${state} ${row?.beyond === 'above limit' ? 'beyond' : ''} ${row?.mark === 'answers' ? 'answers' : ''}`}
    >
      <circle cx={pin.tip[0]} cy={pin.tip[1]} r="5" />
      <rect x={x} y={y} width={width} height={label.height} rx="4" />
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
    </g>
  );
}

/** A name that is longer than its label, cut with a sign that it is. About 8.5 px a letter. */
const fitted = (name: string, room: number): string =>
  name.length * 8.5 <= room ? name : `${name.slice(0, Math.max(1, Math.floor(room / 8.5) - 1))}\u2026`;

const arrow = { up: '↗', down: '↘', level: '→', unknown: '' } as const;

const path = (points: readonly Vector[]): string => points.map(([x, y]) => `${round(x)},${round(y)}`).join(' ');
const round = (value: number): number => Math.round(value * 10) / 10;

const heating = ({ heating: { means, face } }: Joint, heat: Props['heat']): string => {
  const where = face === 'both' ? 'both faces' : `the ${face} face`;
  const state = heat === undefined ? '' : heat === 'not entered' ? ', not entered as on or off' : `, now ${heat}`;
  return `Heat by ${means} on ${where}${state}.`;
};

const spoken = (joint: Joint, rows: Props['rows']): string =>
  `Cross-section. ${joint.probes
    .filter((probe) => probe.place !== undefined)
    .map(
      (probe) =>
        `${probe.id} at ${placeMark(probe.place!, unitsOf(joint))}${rows === undefined ? '' : `: ${rows.get(probe.id)?.value ?? 'no reading'}`}`,
    )
    .join('; ')}.`;
