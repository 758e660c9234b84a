/** The profile through one part, drawn: band, likely line, minimum, the probes at their faces. */
import type { FaceMark, ProfilePicture } from './profile-model.ts';

interface Props {
  readonly picture: ProfilePicture;
  readonly faces: { readonly heated: string; readonly far: readonly [name: string, about: string] };
  readonly unit: string;
  readonly depthUnit: string;
  /** The same in words. */
  readonly spoken: string;
}

export function Profile({ picture, faces, unit, depthUnit, spoken }: Props) {
  const { width, height, left, right, top, bottom, minimum, coldest } = picture;
  return (
    <svg
      class="wall-drawing"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={spoken}
    >
      <text class="wall-face" x={left} y="15" text-anchor="middle">
        {faces.heated}
      </text>
      <text class="wall-face" x={width} y="15" text-anchor="end">
        {faces.far[0]}
      </text>
      <text class="wall-about" x={width} y="31" text-anchor="end">
        {faces.far[1]}
      </text>
      <rect class="wall-steel" x={left} y={top} width={right - left} height={bottom - top} />
      {picture.degrees.map(({ y, text }) => (
        <g key={text}>
          <line class="wall-grid" x1={left} y1={y} x2={right} y2={y} />
          <text class="wall-tick" x="0" y={y + 4}>
            {text}
          </text>
        </g>
      ))}
      <text class="wall-tick" x="0" y={top - 8}>
        {unit}
      </text>
      <path class="wall-band" d={`M${picture.band.map(pair).join('L')}Z`} />
      <polyline class="wall-likely" points={picture.likely.map(pair).join(' ')} />
      {minimum !== undefined && (
        <>
          <line class="wall-minimum" x1={left} y1={minimum.y} x2={right} y2={minimum.y} />
          <text class="wall-minimum-text" x={(left + right) / 2} y={minimum.y - 6} text-anchor="middle">
            {minimum.text}
          </text>
        </>
      )}
      <path class="wall-coldest" d={`M${coldest.x},${coldest.y + 3}l-7,12h14z`} />
      <line class="wall-edge" x1={left} y1={top} x2={left} y2={bottom} />
      <line class="wall-edge" x1={right} y1={top} x2={right} y2={bottom} />
      {picture.marks.map((mark) => (
        <Mark key={`${mark.face} ${mark.lines[0]}`} mark={mark} />
      ))}
      {picture.depths.map(({ x, text }, index) => (
        <text key={text} class="wall-tick" x={x} y={bottom + 16} text-anchor={index === 0 ? 'start' : 'middle'}>
          {text}
        </text>
      ))}
      <text class="wall-tick" x={(left + right) / 2} y={bottom + 33} text-anchor="middle">
        depth, {depthUnit}
      </text>
    </svg>
  );
}

/** A filled dot is measured, a ring is computed. */
function Mark({ mark: { kind, face, x, y, labelY, lines } }: { readonly mark: FaceMark }) {
  const out = face === 'heated' ? -1 : 1;
  const anchor = face === 'heated' ? 'end' : 'start';
  return (
    <g class={`wall-mark ${kind}`}>
      <polyline class="wall-leader" points={`${x},${y} ${x + out * 10},${labelY} ${x + out * 13},${labelY}`} />
      <circle cx={x} cy={y} r="5" />
      {lines.map((line, index) => (
        <text
          key={line}
          class={index === 0 ? 'wall-name' : 'wall-value'}
          x={x + out * 16}
          y={labelY - 3 + 16 * index}
          text-anchor={anchor}
        >
          {line.length > 12 ? `${line.slice(0, 11)}\u2026` : line}
        </text>
      ))}
    </g>
  );
}

const pair = ([x, y]: readonly [number, number]): string => `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`;
