/**
 * The scans in the bytes that scans-write made. Refuses bytes that do not fit together; whether they are
 * the bytes that were sealed is the hash's business, in block.ts.
 */
import { limits } from '../measure/limits.ts';
import type { DeciMicrovolt, Instant, MilliCelsius } from '../measure/quantity.ts';
import { type Quality, qualities, type Raw, type Scan, type ScanValue } from '../weld/scan.ts';
import { CanonicalFailure } from './canonical.ts';
import { readRuns, readSteps } from './columns.ts';
import { documentOf, type Found, list, object, stepsOf, text } from './found.ts';

/** Throws CanonicalFailure unless there are exactly `count` scans. */
export const decodeScans = (bytes: Uint8Array, count: number): readonly Scan[] =>
  scansOf(documentOf(bytes, count), count);

/** Uses the columns up: their steps become values in place. */
export const scansOf = (document: Found, count: number): readonly Scan[] => {
  const order = readRuns(document.order, count, 'order');
  const groups = list(document.groups, 'groups');
  const sizes = groups.map(() => 0);
  for (const index of order) {
    if (index >= sizes.length) throw new CanonicalFailure('order', 'names a group that is not there');
    sizes[index]! += 1;
  }
  const scans = groups.map((group, index) => readGroup(object(group, 'groups'), sizes[index]!));
  const next = groups.map(() => 0);
  return order.map((index) => scans[index]![next[index]!++]!);
};

const readGroup = (found: Found, count: number): readonly Scan[] => {
  const board = text(found.board, 'board');
  const boot = readRuns(found.boot, count, 'boot');
  const sequence = stepsOf(found, 'sequence', count);
  const ticks = stepsOf(found, 'ticks', count);
  const measuredAt = stepsOf(found, 'measuredAt', count) as readonly Instant[];
  const arrivedAt = stepsOf(found, 'arrivedAt', count) as readonly Instant[];
  const late = readRuns(found.late, count, 'late');
  const inputs = readRuns(found.inputs, count, 'inputs');
  const probes = list(found.probes, 'probes');
  if (probes.length > limits.probesMaximum) throw new CanonicalFailure('probes', 'more than a joint has');
  const columns = probes.map((probe) => readProbe(object(probe, 'probes'), count));
  const scans: Scan[] = [];
  for (let index = 0; index < count; index += 1) {
    const values: ScanValue[] = [];
    for (const column of columns) values.push(column[index]!);
    scans.push({
      board,
      boot: boot[index]!,
      sequence: sequence[index]!,
      ticks: ticks[index]!,
      measuredAt: measuredAt[index]!,
      arrivedAt: arrivedAt[index]!,
      late: late[index] === 1,
      inputs: inputs[index]!,
      values,
    });
  }
  return scans;
};

const readProbe = (found: Found, count: number): readonly ScanValue[] => {
  const probe = text(found.probe, 'probe');
  const quality = readRuns(found.quality, count, 'quality');
  const form = readRuns(found.form, count, 'form');
  const temperature = readSteps(found.temperature, 'temperature') as readonly MilliCelsius[];
  const rawOf = rawReader(found);
  const said = saidOf(found, count);
  const values: ScanValue[] = [];
  let good = 0;
  for (let index = 0; index < count; index += 1) {
    const word = qualityOf(quality[index]!);
    const raw = withSaid(rawOf(form[index]!), said?.[index]);
    if (word === 'good') {
      const degrees = temperature[good++];
      if (degrees === undefined) throw new CanonicalFailure('temperature', 'a value is missing');
      values.push({ probe, quality: word, temperature: degrees, raw });
    } else values.push({ probe, quality: word, raw });
  }
  if (good !== temperature.length) throw new CanonicalFailure('temperature', 'a value too many');
  rawOf('end');
  return values;
};

/** Absent in the scans of boards; else one text a scan, empty where nothing was said. */
const saidOf = (found: Found, count: number): readonly string[] | undefined => {
  if (found.said === undefined) return undefined;
  const all = list(found.said, 'said').map((each) => text(each, 'said'));
  if (all.length !== count) throw new CanonicalFailure('said', 'not one for each scan');
  if (all.every((each) => each === '')) throw new CanonicalFailure('said', 'says nothing');
  return all;
};

const withSaid = (raw: Raw, said: string | undefined): Raw => {
  if (said === undefined || said === '') return raw;
  if (raw.form === 'text') throw new CanonicalFailure('said', 'beside the text of a log');
  return { ...raw, said };
};

/** Takes the raw numbers from their columns one by one; 'end' asserts that none is left over. */
const rawReader = (found: Found): ((form: number | 'end') => Raw) => {
  const voltage = readSteps(found.voltage, 'voltage') as readonly DeciMicrovolt[];
  const coldJunction = readSteps(found.coldJunction, 'coldJunction') as readonly MilliCelsius[];
  const reported = readSteps(found.reported, 'reported') as readonly MilliCelsius[];
  const texts = list(found.text, 'text');
  let voltages = 0;
  let reports = 0;
  let words = 0;
  return (form) => {
    switch (form) {
      case 0: {
        const deciMicrovolts = voltage[voltages];
        const cold = coldJunction[voltages];
        voltages += 1;
        if (deciMicrovolts === undefined || cold === undefined)
          throw new CanonicalFailure('voltage', 'a value is missing');
        return { form: 'voltage', deciMicrovolts, coldJunction: cold };
      }
      case 1: {
        const value = reported[reports++];
        if (value === undefined) throw new CanonicalFailure('reported', 'a value is missing');
        return { form: 'temperature', reported: value };
      }
      case 2:
        return { form: 'text', text: text(texts[words++], 'text') };
      case 3:
        return none;
      case 'end':
        if (
          voltages !== voltage.length ||
          voltages !== coldJunction.length ||
          reports !== reported.length ||
          words !== texts.length
        ) {
          throw new CanonicalFailure('raw', 'a value too many');
        }
        return none;
      default:
        throw new CanonicalFailure('form', 'not a form of a raw number');
    }
  };
};

const none: Raw = Object.freeze({ form: 'none' });

const qualityOf = (index: number): Quality => {
  const word = qualities[index];
  if (word === undefined) throw new CanonicalFailure('quality', 'not a quality');
  return word;
};
