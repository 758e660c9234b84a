/** A badge as a code to print (QR, ISO/IEC 18004): dark squares as one path, with the quiet border that readers need. */
import { encode } from 'uqr';

export function badgeSvg(text: string): string {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const squares = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1Z`] : [])));
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size} ${size}">` +
    `<path fill="#fff" d="M0 0h${size}v${size}H0Z"/><path fill="#000" d="${squares.join('')}"/></svg>`
  );
}
