/** A chart of the passes on paper. */
import type { Ink, PassChart, Shape } from '../../wording/pass-chart.ts';
import { line, path, rectangle, svg, text } from '../svg.ts';

export const passChartSvg = ({ width, height, shapes }: PassChart): string =>
  svg(width, height, [rectangle(0, 0, width, height, { fill: '#fff' }), ...shapes.map(drawn)]);

function drawn(shape: Shape): string {
  switch (shape.kind) {
    case 'line': {
      const { stroke, width, dash } = inks[shape.ink];
      return line(...shape.from, ...shape.to, stroke, width, dash);
    }
    case 'mark': {
      const [x, y] = shape.at;
      return path(`M${x - 3},${y}h6M${x},${y - 3}v6`, { stroke: '#000', width: 1 });
    }
    case 'bar': {
      const isOutside = shape.ink === 'outside';
      const style = { fill: isOutside ? '#000' : '#bbb', stroke: '#000', strokeWidth: 0.5 };
      return rectangle(...shape.at, shape.width, shape.height, style);
    }
    case 'text':
      return text(...shape.at, shape.text, { size: 9, anchor: shape.anchor });
  }
}

const inks: Readonly<Record<Ink, { readonly stroke: string; readonly width: number; readonly dash: string }>> = {
  grid: { stroke: '#ccc', width: 0.4, dash: '' },
  limit: { stroke: '#000', width: 0.9, dash: '5 3' },
  value: { stroke: '#000', width: 1.4, dash: '' },
  outside: { stroke: '#000', width: 3, dash: '' },
  second: { stroke: '#000', width: 1, dash: '' },
  label: { stroke: '#000', width: 0.5, dash: '' },
};
