/** A chart of the passes, drawn. */
import type { PassChart, Shape } from '../../server/wording/pass-chart.ts';

export function PassChartView({ chart }: { readonly chart: PassChart }) {
  const { width, height, shapes, spoken, title } = chart;
  return (
    <figure class="pass-chart">
      <figcaption>{title}</figcaption>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={spoken}>
        {shapes.map((shape, index) => (
          <Drawn key={`${index} ${shape.kind}`} shape={shape} />
        ))}
      </svg>
    </figure>
  );
}

function Drawn({ shape }: { readonly shape: Shape }) {
  switch (shape.kind) {
    case 'line':
      return <line class={shape.ink} x1={shape.from[0]} y1={shape.from[1]} x2={shape.to[0]} y2={shape.to[1]} />;
    case 'mark':
      return <circle class={shape.ink} cx={shape.at[0]} cy={shape.at[1]} r="4" />;
    case 'bar':
      return <rect class={shape.ink} x={shape.at[0]} y={shape.at[1]} width={shape.width} height={shape.height} />;
    case 'text':
      return (
        <text x={shape.at[0]} y={shape.at[1]} text-anchor={shape.anchor}>
          {shape.text}
        </text>
      );
  }
}
