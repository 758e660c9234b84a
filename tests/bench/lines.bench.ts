/**
 * The least that any reader of a board's lines must do is to split the stream and to check each line's value. The codec accounts for
 * every character besides, in one way of writing only, and gives numbers.
 */
import { crc16 } from '../../firmware-protocol/codec/check.ts';
import { decode } from '../../firmware-protocol/codec/decode.ts';
import type { BenchSet } from './bench.ts';
import { sixteenChannelBoard } from './sixteen-channels.ts';

export async function prepareBench(): Promise<BenchSet> {
  const text = sixteenChannelBoard(100).advance(60_000);
  const amount = text.split('\n').filter((line) => line !== '').length;
  let seen = 0;
  return {
    title: `Lines of 16 channels (${Math.round(text.length / amount)} characters each)`,
    unit: 'lines',
    baseline: {
      name: 'split and check, no number taken out',
      amount,
      run: () => {
        for (const line of text.split('\n')) if (checkedContent(line) !== undefined) seen += 1;
      },
    },
    rows: [
      {
        name: 'split and check, and numbers taken out that are believed',
        amount,
        run: () => {
          for (const line of text.split('\n')) seen += bareNumbers(line);
        },
      },
      {
        name: 'split, check and account for every character (codec)',
        amount,
        leastOfBaseline: 1 / 2,
        run: () => {
          for (const line of text.split('\n')) if (line !== '' && decode(line).ok) seen += 1;
        },
      },
    ],
    close: () => {
      if (seen === 0) throw new Error('nothing was read');
    },
  };
}

/** How many numbers the line gave; none where its check value is wrong. */
function bareNumbers(line: string): number {
  const numbers: number[] = [];
  for (const word of (checkedContent(line) ?? '').split(' ')) {
    const [, value] = word.split('=');
    if (value === undefined) continue;
    for (const part of value.split('@')) numbers.push(Number(part));
  }
  return numbers.length;
}

const checkedContent = (line: string): string | undefined => {
  const at = line.lastIndexOf(' ~');
  const content = line.slice(0, Math.max(0, at));
  return at >= 0 && crc16(content) === Number.parseInt(line.slice(at + 2), 16) ? content : undefined;
};
