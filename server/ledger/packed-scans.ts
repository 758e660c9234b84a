/**
 * The columns of scans packed as few bytes, and back to the very same columns. Only how they lie on the disk is decided here:
 * what was hashed are the canonical bytes of the columns, which follow from them. FORMAT.md, section 5, gives each piece.
 */
import { limits } from '../measure/limits.ts';
import { PieceReader, PieceWriter } from './bits.ts';
import { CanonicalFailure } from './canonical.ts';
import { readRuns, readSteps } from './columns.ts';
import { type Near, planeOf, readAlong, writeAlong } from './packed-along.ts';
import { readColumn, writeColumn } from './packed-column.ts';
import { type Columns, type GroupColumns, type ProbeColumns, scansFormat } from './scans-columns.ts';

/** No DEFLATE stream begins so: its first block would be of the type that RFC 1951 keeps for an error. */
export const packedMark = 0x07;
export const isPackedColumns = (packed: Uint8Array): boolean => packed[0] === packedMark;

/** Undefined where they hold numbers that only the plain text can carry. */
export const packColumns = (columns: Columns): Uint8Array | undefined => {
  const writer = new PieceWriter();
  writeRuns(writer, columns.order);
  writer.whole(columns.groups.length);
  for (const group of columns.groups) if (!writeGroup(writer, group)) return undefined;
  return writer.done(packedMark);
};

/** Exactly `count` scans. Throws CanonicalFailure for bytes that packColumns would not have written. */
export const unpackColumns = (packed: Uint8Array, count: number): Columns => {
  const reader = new PieceReader(packed);
  const order = readRunsOf(reader, count);
  const groups: GroupColumns[] = [];
  let left = count;
  for (let number = reader.whole(count); number > 0; number -= 1) {
    const group = readGroup(reader, left);
    left -= group.sequence.length;
    groups.push(group);
  }
  if (!reader.isAtEnd) throw new CanonicalFailure('scans', 'more packed bytes than scans');
  return { format: scansFormat, groups, order };
};

const timeColumns = ['sequence', 'ticks', 'measuredAt', 'arrivedAt'] as const;
const runColumns = ['boot', 'inputs', 'late'] as const;

const writeGroup = (writer: PieceWriter, group: GroupColumns): boolean => {
  const count = group.sequence.length;
  writer.text(group.board);
  writer.whole(count);
  for (const name of runColumns) writeRuns(writer, group[name]);
  for (const name of timeColumns) if (!writeColumn(writer, valuesOf(group[name]), 0)) return false;
  writer.whole(group.probes.length);
  let near = nothingNear;
  for (const probe of group.probes) {
    const written = writeProbe(writer, probe, count, near);
    if (written === undefined) return false;
    near = written;
  }
  return true;
};

const readGroup = (reader: PieceReader, most: number): GroupColumns => {
  const board = reader.text();
  const count = reader.whole(most);
  const runs = runColumns.map((name) => [name, readRunsOf(reader, count)] as const);
  const times = timeColumns.map((name) => [name, stepsOf(readColumn(reader, count, 0))] as const);
  const probes: ProbeColumns[] = [];
  let near = nothingNear;
  for (let number = reader.whole(limits.probesMaximum); number > 0; number -= 1) {
    const read = readProbe(reader, count, near);
    probes.push(read.columns);
    near = read.near;
  }
  return { board, probes, ...Object.fromEntries([...runs, ...times]) } as unknown as GroupColumns;
};

const nothingNear: Near = {
  first: { voltage: 0, coldJunction: 0, temperature: 0 },
  slope: { voltage: 0, coldJunction: 0 },
};
/** What follows of a probe: all of it; or, where all scans are good and have a voltage, its numbers, the temperatures by themselves or beside the voltages. */
const told = 0;
const plainly = 1;
const along = 2;

const isOrdinary = ({ quality, form, reported, text }: ProbeColumns, count: number): boolean =>
  count > 0 &&
  [quality, form].every((runs) => runs[0] === 0 && runs[1] === count) &&
  reported.length + text.length === 0;

const writeProbe = (writer: PieceWriter, probe: ProbeColumns, count: number, near: Near): Near | undefined => {
  const voltage = valuesOf(probe.voltage);
  const coldJunction = valuesOf(probe.coldJunction);
  const temperature = valuesOf(probe.temperature);
  const isPlain = isOrdinary(probe, count);
  const plane = isPlain ? planeOf({ voltage, coldJunction, temperature }) : undefined;
  writer.text(probe.probe);
  writer.byte(isPlain ? (plane === undefined ? plainly : along) : told);
  if (!isPlain) {
    writeRuns(writer, probe.quality);
    writeRuns(writer, probe.form);
    writer.whole(probe.text.length);
    for (const text of probe.text) writer.text(text);
    writer.whole(probe.reported.length);
    if (!writeColumn(writer, valuesOf(probe.reported), 0)) return undefined;
    writer.whole(probe.voltage.length);
    writer.whole(probe.temperature.length);
  }
  if (!writeColumn(writer, voltage, near.first.voltage)) return undefined;
  if (!writeColumn(writer, coldJunction, near.first.coldJunction)) return undefined;
  if (plane !== undefined) writeAlong(writer, plane, { voltage, coldJunction, temperature }, near);
  else if (!writeColumn(writer, temperature, near.first.temperature)) return undefined;
  return nearOf(near, voltage, coldJunction, temperature, plane);
};

const readProbe = (
  reader: PieceReader,
  count: number,
  near: Near,
): { readonly columns: ProbeColumns; readonly near: Near } => {
  const probe = reader.text();
  const way = reader.byte();
  if (way > along) throw new CanonicalFailure('scans', 'a probe that is told in no known way');
  const plain = way !== told;
  const quality = plain ? [0, count] : readRunsOf(reader, count);
  const form = plain ? [0, count] : readRunsOf(reader, count);
  const text = plain ? [] : Array.from({ length: reader.whole(count) }, () => reader.text());
  const reported = plain ? [] : stepsOf(readColumn(reader, reader.whole(count), 0));
  const voltages = plain ? count : reader.whole(count);
  const temperatures = plain ? count : reader.whole(count);
  const voltage = readColumn(reader, voltages, near.first.voltage);
  const coldJunction = readColumn(reader, voltages, near.first.coldJunction);
  const read = way === along ? readAlong(reader, { voltage, coldJunction }, near) : undefined;
  const temperature = read?.temperature ?? readColumn(reader, temperatures, near.first.temperature);
  return {
    near: nearOf(near, voltage, coldJunction, temperature, read?.slope),
    columns: {
      ...{ probe, quality, form, text, reported },
      temperature: stepsOf(temperature),
      voltage: stepsOf(voltage),
      coldJunction: stepsOf(coldJunction),
    },
  };
};

const nearOf = (
  { first, slope }: Near,
  voltage: readonly number[],
  coldJunction: readonly number[],
  temperature: readonly number[],
  newSlope: Near['slope'] | undefined,
): Near => ({
  first: {
    voltage: voltage[0] ?? first.voltage,
    coldJunction: coldJunction[0] ?? first.coldJunction,
    temperature: temperature[0] ?? first.temperature,
  },
  slope: newSlope ?? slope,
});

const valuesOf = (steps: readonly number[]): readonly number[] => readSteps([...steps], 'steps');
/** In place of the values. */
const stepsOf = (values: number[]): readonly number[] => {
  for (let at = values.length - 1; at > 0; at -= 1) values[at] = values[at]! - values[at - 1]!;
  return values;
};

const writeRuns = (writer: PieceWriter, runs: readonly number[]): void => {
  writer.whole(runs.length / 2);
  for (const each of runs) writer.whole(each);
};
const readRunsOf = (reader: PieceReader, count: number): readonly number[] => {
  const runs = Array.from({ length: 2 * reader.whole(count) }, () => reader.whole());
  readRuns(runs, count, 'runs');
  return runs;
};
