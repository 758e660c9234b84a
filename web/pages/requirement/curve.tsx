/**
 * Draws a "what if" curve. Names stand at the ends of their lines; where there is no room for them, letters do, and
 * the names stand below. The working point and the ends of ranges carry words.
 */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Curve, CurveLine } from './curve-model.ts';

/** Narrower than this, names beside the lines would leave no room for the lines. */
const wideEnough = 560;
const height = 340;
const left = 46;
const top = 26;
const bottom = 36;

export function CurveView({
  curve,
  xName,
  unit,
}: {
  readonly curve: Curve;
  readonly xName: string;
  readonly unit: string;
}) {
  const box = useRef<HTMLDivElement>(null);
  const narrow = useSignal(false);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined) narrow.value = entry.contentRect.width < wideEnough;
    });
    if (box.current !== null) watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  const letters = narrow.value;
  const [width, right] = letters ? [360, 30] : [720, 232];
  const x = (value: number): number =>
    left + ((value - curve.x[0]) / (curve.x[1] - curve.x[0])) * (width - left - right);
  const y = (value: number): number =>
    height - bottom - ((value - curve.y[0]) / (curve.y[1] - curve.y[0])) * (height - top - bottom);
  const names = apart(curve.lines.map((line) => ({ line, y: y(line.end[1]) })));
  return (
    <div ref={box}>
      <svg class="curve" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={spoken(curve, xName)}>
        {curve.yTicks.map((tick) => (
          <g key={tick.text}>
            <line class="grid" x1={left} x2={width - right} y1={y(tick.at)} y2={y(tick.at)} />
            <text x={left - 6} y={y(tick.at) + 4} text-anchor="end">
              {tick.text}
            </text>
          </g>
        ))}
        {curve.xTicks.map((tick) => (
          <text key={tick.text} x={x(tick.at)} y={height - bottom + 18} text-anchor="middle">
            {tick.text}
          </text>
        ))}
        <text class="axis-title" x={left - 6} y={14} text-anchor="start">
          {unit}
        </text>
        <text class="axis-title" x={width - right} y={height - 4} text-anchor="end">
          {xName}
        </text>
        {curve.ends.map((end) => (
          <line key={end.text} class="range-end" x1={x(end.x)} x2={x(end.x)} y1={top} y2={height - bottom}>
            <title>{end.text}</title>
          </line>
        ))}
        {curve.lines.map((line) => (
          <g key={line.key} class={`line ${line.kind}`}>
            {line.runs.map((run) => (
              <path key={`${run[0]?.[0]}`} d={pathOf(run, x, y)} />
            ))}
          </g>
        ))}
        {names.map(({ line, at }, index) => (
          <g key={line.key} class={`name ${line.kind}`}>
            <line x1={x(line.end[0])} y1={y(line.end[1])} x2={width - right + 12} y2={at} />
            <text x={width - right + 16} y={at + 4}>
              {letters ? letterOf(index) : cut(line.title)}
            </text>
          </g>
        ))}
        {curve.working !== undefined && (
          <g class="working-point">
            <line x1={x(curve.working.x)} x2={x(curve.working.x)} y1={top - 6} y2={height - bottom} />
            {curve.working.y !== undefined && <circle cx={x(curve.working.x)} cy={y(curve.working.y)} r="6" />}
            <text
              x={x(curve.working.x) + (x(curve.working.x) > (width - right) / 2 ? -6 : 6)}
              y={14}
              text-anchor={x(curve.working.x) > (width - right) / 2 ? 'end' : 'start'}
            >
              {curve.working.text}
            </text>
          </g>
        )}
      </svg>
      {letters && (
        <ul class="letters">
          {names.map(({ line }, index) => (
            <li key={line.key} class={line.kind}>
              <b>{letterOf(index)}</b> {line.title}
            </li>
          ))}
        </ul>
      )}
      {curve.ends.length > 0 && (
        <p class="aside">
          Dotted upright lines, ends of validated ranges: {curve.ends.map(({ text }) => text).join('; ')}.
        </p>
      )}
    </div>
  );
}

const pathOf = (
  run: readonly (readonly [number, number])[],
  x: (v: number) => number,
  y: (v: number) => number,
): string =>
  run.length === 1
    ? `M${x(run[0]![0]) - 4} ${y(run[0]![1])}h8`
    : run.map(([a, b], index) => `${index === 0 ? 'M' : 'L'}${x(a).toFixed(1)} ${y(b).toFixed(1)}`).join('');

/** Names that would sit on each other are pushed apart, in the order of their lines. */
const apart = (
  names: readonly { readonly line: CurveLine; readonly y: number }[],
): { line: CurveLine; at: number }[] => {
  const sorted = [...names].sort((a, b) => a.y - b.y);
  const gap = Math.min(17, (height - top - bottom + 30) / Math.max(1, sorted.length));
  const placed: { line: CurveLine; at: number }[] = [];
  for (const { line, y } of sorted) placed.push({ line, at: Math.max(y, (placed.at(-1)?.at ?? top - 20) + gap) });
  const over = (placed.at(-1)?.at ?? 0) - (height - bottom + 14);
  return over <= 0 ? placed : squeezed(placed, gap);
};

const squeezed = (placed: { line: CurveLine; at: number }[], gap: number): { line: CurveLine; at: number }[] => {
  let limit = height - bottom + 14;
  const out: { line: CurveLine; at: number }[] = [];
  for (const each of placed.toReversed()) {
    const at = Math.min(each.at, limit);
    out.unshift({ line: each.line, at });
    limit = at - gap;
  }
  return out;
};

const letterOf = (index: number): string => String.fromCharCode(65 + index);

const cut = (title: string): string => (title.length <= 31 ? title : `${title.slice(0, 30)}\u2026`);

const spoken = ({ lines, working }: Curve, xName: string): string =>
  `Required preheat over ${xName}. ${lines.map(({ title }) => title).join(', ')}.${working === undefined ? '' : ` Working point ${working.text}.`}`;
