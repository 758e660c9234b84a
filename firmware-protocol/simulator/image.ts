/** A program for the processor, from the text of its Intel HEX file. A file that is not whole is refused with the line at fault. */

/** Flash of an ATmega328P, bytes. */
const flashBytes = 32_768;

export function readImage(text: string): Uint16Array {
  const flash = new Uint8Array(flashBytes).fill(0xff);
  let ended = false;
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line === '') continue;
    const bytes = recordOf(line, index + 1);
    const [length = 0, high = 0, low = 0, kind] = bytes;
    if (kind === 1) ended = true;
    if (kind !== 0) continue;
    const address = high * 256 + low;
    if (address + length > flashBytes) throw new RangeError(`line ${index + 1}: beyond the flash of the processor`);
    flash.set(bytes.slice(4, 4 + length), address);
  }
  if (!ended) throw new RangeError('the image has no end');
  return new Uint16Array(flash.buffer);
}

function recordOf(line: string, number: number): number[] {
  if (!/^:([0-9A-F]{2}){5,}$/i.test(line)) throw new RangeError(`line ${number}: not a record of an Intel HEX file`);
  const bytes = line
    .slice(1)
    .match(/../g)!
    .map((pair) => Number.parseInt(pair, 16));
  if (bytes.length !== bytes[0]! + 5) throw new RangeError(`line ${number}: not as long as it says`);
  if (bytes.reduce((sum, each) => sum + each, 0) % 256 !== 0) throw new RangeError(`line ${number}: its sum is wrong`);
  return bytes;
}
