/** The map of heat through one part over time: colours on a canvas, axes and the line of the minimum over it, the key below. */
import { useEffect, useRef } from 'preact/hooks';
import { colourAt, cssColour, partOf } from './colours.ts';
import { type ColourSpan, type MapPicture, mapRows } from './map-model.ts';

interface Props {
  readonly picture: MapPicture;
  readonly spoken: string;
}

export function HeatMap({ picture, spoken }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { width, height, left, right, top, bottom, contour } = picture;
  useEffect(() => {
    if (canvas.current !== null) paint(canvas.current, picture);
  }, [picture]);
  const line = contour.map(([from, to]) => `M${pair(from)}L${pair(to)}`).join('');
  return (
    <div class="wall-map">
      <canvas ref={canvas} style={{ left: `${left}px`, top: `${top}px` }} />
      <svg
        class="wall-drawing"
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={spoken}
      >
        <rect class="wall-frame" x={left} y={top} width={right - left} height={bottom - top} />
        <path class="wall-contour under" d={line} />
        <path class="wall-contour" d={line} />
        {picture.depths.map(({ y, text }, index) => (
          <text key={text} class="wall-tick" x={left - 6} y={y + (index === 0 ? 10 : 4)} text-anchor="end">
            {text}
          </text>
        ))}
        {picture.times.map(({ x, text }) => (
          <g key={text}>
            <line class="wall-grid" x1={x} y1={bottom} x2={x} y2={bottom + 5} />
            <text class="wall-tick" x={Math.min(x, right - 16)} y={bottom + 19} text-anchor="middle">
              {text}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

/** What the colours mean, with the minimum among them. */
export function ColourKey({
  span,
  ticks,
  minimum,
}: {
  readonly span: ColourSpan;
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
  readonly minimum: { readonly celsius: number; readonly text: string } | undefined;
}) {
  const x = (celsius: number): number => 16 + partOf(celsius, span) * 268;
  return (
    <figure class="wall-key">
      <svg width="300" height="34" viewBox="0 0 300 34" aria-hidden="true">
        {Array.from({ length: steps }, (_, index) => (
          <rect
            key={`${index}`}
            x={16 + (index * 268) / steps}
            y="2"
            width={268 / steps + 0.5}
            height="12"
            fill={cssColour(colourAt((index + 0.5) / steps))}
          />
        ))}
        {minimum !== undefined && <path class="wall-key-mark" d={`M${x(minimum.celsius)},0v16`} />}
        {ticks.map(({ at, text }) => (
          <text key={text} class="wall-tick" x={x(at)} y="29" text-anchor="middle">
            {text}
          </text>
        ))}
      </svg>
      <figcaption class="aside">
        Dark is cold, light is hot.
        {minimum !== undefined &&
          ` Line: likely at the ${minimum.text}; in front of it, toward the light, it is warmer.`}
      </figcaption>
    </figure>
  );
}

const steps = 67;

/** One stripe for each column, its rows drawn into each other, sharp in time: nothing is made up between columns. */
const paint = (canvas: HTMLCanvasElement, { left, right, top, bottom, columns }: MapPicture): void => {
  const [width, height] = [right - left, bottom - top];
  const ratio = Math.max(1, window.devicePixelRatio);
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  canvas.style.width = `${width}px`;
  canvas.style.height = `${height}px`;
  const context = canvas.getContext('2d');
  if (context === null) return;
  const stripes = new ImageData(columns.length, mapRows);
  columns.forEach(({ colours }, column) => {
    colours.forEach((colour, row) => {
      stripes.data.set([...colour, 255], 4 * (row * columns.length + column));
    });
  });
  const source = new OffscreenCanvas(columns.length, mapRows);
  source.getContext('2d')?.putImageData(stripes, 0, 0);
  columns.forEach(({ from, to }, column) => {
    const x = Math.round((from - left) * ratio);
    const end = Math.round((to - left) * ratio);
    context.drawImage(source, column, 0, 1, mapRows, x, 0, Math.max(1, end - x), canvas.height);
  });
};

const pair = ([x, y]: readonly [number, number]): string => `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`;
