/** A text as a QR code (ISO/IEC 18004), dark squares as one path with the four modules of quiet border that readers need. */
import { encode } from 'uqr';
import { path, rectangle, svg } from './svg.ts';

export function squareCode(text: string): string {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const squares = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1Z`] : [])));
  return svg(size, size, [rectangle(0, 0, size, size, { fill: '#fff' }), path(squares.join(''), { fill: '#000' })]);
}
