/**
 * Scans as the judge keeps them for the time that it can go back: without the raw numbers, which it never reads
 * (the record has them), and packed, since half an hour of many probes would otherwise be most of its memory.
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { qualities, type Scan, type ScanValue } from '../weld/scan.ts';

export interface KeptScan {
  readonly board: string;
  readonly late: boolean;
  /** One list for all scans that have the same probes in the same order. */
  readonly probes: readonly string[];
  /** The numbers of the scan, then for each probe its temperature, which is whole, or a half above the place of its quality. */
  readonly numbers: readonly number[];
}

const heads = 6;
const half = 0.5;

/** Packs; names the probes by the list of the scan before where it is the same. */
export function keepScan(scan: Scan, before?: readonly string[]): KeptScan {
  const { board, boot, sequence, ticks, measuredAt, arrivedAt, late, inputs, values } = scan;
  const isSame = before?.length === values.length && values.every(({ probe }, index) => probe === before[index]);
  const numbers: number[] = [measuredAt, arrivedAt, boot, sequence, ticks, inputs];
  for (const { temperature, quality } of values) {
    numbers.push(temperature ?? qualities.indexOf(quality) + half);
  }
  // A copy is as long as it needs to be, which a list that has grown is not.
  return { board, late, probes: isSame ? before : values.map(({ probe }) => probe), numbers: numbers.slice() };
}

/** As it was, but for the raw numbers. */
export function keptScan({ board, late, probes, numbers }: KeptScan): Scan {
  const [measuredAt, arrivedAt, boot, sequence, ticks, inputs] = numbers as readonly [
    Instant,
    Instant,
    number,
    number,
    number,
    number,
  ];
  const values = probes.map((probe, index) => scanValueOf(probe, numbers[heads + index]!));
  return { board, boot, sequence, ticks, measuredAt, arrivedAt, late, inputs, values };
}

function scanValueOf(probe: string, number: number): ScanValue {
  const raw = { form: 'none' } as const;
  return Number.isInteger(number)
    ? { probe, quality: 'good', temperature: number as MilliCelsius, raw }
    : { probe, quality: qualities[number - half]!, raw };
}
