/** Splitting the stream into lines is the least that any reader must do; checking and decoding each is the rest. */
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
      name: 'split by line feed only',
      amount,
      run: () => {
        for (const line of text.split('\n')) seen += line.length;
      },
    },
    rows: [
      {
        name: 'split and check (codec)',
        amount,
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
