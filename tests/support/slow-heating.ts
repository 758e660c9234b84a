/**
 * The log of the heated steel columns as two boards would have sent it: each row a sample of each board, the
 * instrument's own temperature in hundredths of a degree. A number that no board can send becomes the fault flag
 * 'out of range'; where the log has no number the channel is left out of that sample.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bounds } from '../../firmware-protocol/codec/bounds.ts';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { Hello, SampleValue } from '../../firmware-protocol/codec/frame.ts';
import type { Joint } from '../../server/weld/joint.ts';
import { readJoint } from '../../server/weld/read-joint.ts';

export const slowHeatingLog = fileURLToPath(
  new URL('../../../shared/data/nist-wtc-p1t5-steel-columns-and-bar.csv', import.meta.url),
);
export const hasSlowHeatingLog = existsSync(slowHeatingLog);
export const slowHeatingJointFile = fileURLToPath(new URL('./slow-heating-joint.json', import.meta.url));

export const slowHeatingJoint = (): Joint => {
  const read = readJoint(readFileSync(slowHeatingJointFile, 'utf8'));
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  return read.joint;
};

export interface Row {
  readonly seconds: number;
  /** Text of the log by column. */
  readonly cells: ReadonlyMap<string, string>;
}

export function slowHeatingRows(): readonly Row[] {
  const [header, ...rows] = readFileSync(slowHeatingLog, 'utf8').trim().split(/\r?\n/);
  const names = header!.split(',');
  return rows.map((row) => {
    const cells = row.split(',');
    return { seconds: Number(cells[0]), cells: new Map(names.map((name, index) => [name, cells[index]!])) };
  });
}

export interface BoardInWords {
  readonly board: string;
  readonly hello: string;
  /** Line of the n-th row, without its LF. */
  sample(sequence: number, ticks: number, row: Row): string;
}

export function boardInWords(board: string, joint: Joint, periodMilliseconds: number): BoardInWords {
  const probes = joint.probes.filter((probe) => probe.board === board).sort((a, b) => a.channel - b.channel);
  const boot = 1;
  const hello: Hello = {
    kind: 'hello',
    revision: 1,
    board,
    firmware: 'log-player-1',
    simulated: true,
    boot,
    ticks: 0,
    periodMilliseconds,
    channels: probes.map(({ channel }) => ({ channel, form: 'temperature', thermocouple: 'K' })),
    inputs: 0,
    linesKept: 0,
  };
  return {
    board,
    hello: encode(hello),
    sample: (sequence, ticks, row) =>
      encode({
        kind: 'sample',
        boot,
        sequence,
        ticks,
        resent: false,
        inputs: 0,
        values: probes.flatMap(({ id, channel }) => sampleValue(channel, Number(row.cells.get(id)))),
      }),
  };
}

function sampleValue(channel: number, celsius: number): SampleValue[] {
  if (Number.isNaN(celsius)) return [];
  const centiCelsius = Math.round(celsius * 100);
  const { lowest, highest } = bounds.centiCelsius;
  return centiCelsius < lowest || centiCelsius > highest
    ? [{ channel, faults: ['out of range'], reading: { form: 'none' } }]
    : [{ channel, faults: [], reading: { form: 'temperature', centiCelsius } }];
}
