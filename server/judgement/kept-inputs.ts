/**
 * Inputs as the judge keeps them for the time that it can go back, in their order. Scans are kept as rows of one
 * table of numbers: half an hour of many probes as objects would be most of the judge's memory. Raw numbers are
 * among them, since signs of faulty probes are read from them.
 */
import type { DeciMicrovolt, Instant, MilliCelsius } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';
import { qualities, type Raw, type Scan, type ScanValue, saidBy } from '../weld/scan.ts';

export interface KeptInputs {
  add(input: Input): void;
  /** As they were. */
  all(): Input[];
  /** As plain data, which goes from one thread to another as it is. */
  packed(): PackedInputs;
}

export interface PackedInputs {
  readonly shapes: readonly Shape[];
  readonly texts: readonly string[];
  readonly others: readonly { readonly beforeRow: number; readonly input: Input }[];
  readonly table: Float64Array;
  readonly rows: number;
}

/** What many scans share: the board, the names of the probes in their order, and whether the instrument's own words stand beside. */
interface Shape {
  readonly board: string;
  readonly probes: readonly string[];
  readonly told?: true;
}

/** Numbers of a row before its temperatures. */
const heads = 8;
/** Numbers of a value: its temperature or quality, and two of its raw number. */
const width = 3;
/** One more where words stand beside: the place of the words, or less than none. */
const widthOf = ({ told }: Shape): number => (told === true ? width + 1 : width);
/** Of a whole row. */
const lengthOf = (shape: Shape): number => heads + widthOf(shape) * shape.probes.length;
const noWords = -1;
/** A value without a temperature is the place of its quality and a half: temperatures are whole. */
const half = 0.5;
const firstLength = 1024;

/** Empty, or with what was packed. */
export function createKeptInputs(from?: PackedInputs): KeptInputs {
  const shapes: Shape[] = [...(from?.shapes ?? [])];
  const texts: string[] = [...(from?.texts ?? [])];
  const placeOfText = new Map(texts.map((text, index) => [text, index]));
  const others: { readonly beforeRow: number; readonly input: Input }[] = [...(from?.others ?? [])];
  let table = new Float64Array(Math.max(firstLength, from?.table.length ?? 0));
  table.set(from?.table ?? []);
  let length = from?.table.length ?? 0;
  let rows = from?.rows ?? 0;

  const shapeOf = (scan: Scan): number => {
    const found = shapes.findIndex((shape) => isOfShape(scan, shape));
    if (found >= 0) return found;
    const probes = scan.values.map(({ probe }) => probe);
    return shapes.push({ board: scan.board, probes, ...(isTold(scan) ? { told: true } : {}) }) - 1;
  };

  const addScan = (scan: Scan): void => {
    const index = shapeOf(scan);
    const shape = shapes[index]!;
    const end = length + lengthOf(shape);
    if (end > table.length) {
      const longer = new Float64Array(Math.max(2 * table.length, end));
      longer.set(table);
      table = longer;
    }
    table[length] = index;
    table[length + 1] = scan.late ? 1 : 0;
    table[length + 2] = scan.measuredAt;
    table[length + 3] = scan.arrivedAt;
    table[length + 4] = scan.boot;
    table[length + 5] = scan.sequence;
    table[length + 6] = scan.ticks;
    table[length + 7] = scan.inputs;
    let at = length + heads;
    for (const { temperature, quality, raw } of scan.values) {
      table[at] = temperature ?? qualities.indexOf(quality) + half;
      table[at + 1] = firstOf(raw);
      table[at + 2] = secondOf(raw);
      if (shape.told === true) {
        const said = saidBy(raw);
        table[at + width] = said === undefined ? noWords : placeOf(said);
      }
      at += widthOf(shape);
    }
    length = end;
    rows += 1;
  };

  const firstOf = (raw: Raw): number => {
    if (raw.form === 'voltage') return raw.deciMicrovolts;
    if (raw.form === 'temperature') return raw.reported;
    return raw.form === 'text' ? placeOf(raw.text) : 0;
  };

  const placeOf = (text: string): number => {
    const known = placeOfText.get(text);
    if (known !== undefined) return known;
    placeOfText.set(text, texts.length);
    return texts.push(text) - 1;
  };

  return {
    add(input) {
      if (input.type === 'scan') addScan(input.scan);
      else others.push({ beforeRow: rows, input });
    },
    packed: () => ({
      shapes: [...shapes],
      texts: [...texts],
      others: [...others],
      table: table.slice(0, length),
      rows,
    }),
    all() {
      const inputs: Input[] = [];
      let next = 0;
      let at = 0;
      for (let row = 0; row <= rows; row += 1) {
        for (; others[next]?.beforeRow === row; next += 1) inputs.push(others[next]!.input);
        if (row === rows) break;
        const shape = shapes[table[at]!]!;
        const end = at + lengthOf(shape);
        inputs.push({ type: 'scan', scan: scanOf(shape, table.subarray(at, end), texts) });
        at = end;
      }
      return inputs;
    },
  };
}

const isTold = ({ values }: Scan): boolean => values.some(({ raw }) => saidBy(raw) !== undefined);

const isOfShape = (scan: Scan, shape: Shape): boolean =>
  scan.board === shape.board &&
  scan.values.length === shape.probes.length &&
  scan.values.every(({ probe }, index) => probe === shape.probes[index]) &&
  isTold(scan) === (shape.told === true);

function scanOf(shape: Shape, row: Float64Array, texts: readonly string[]): Scan {
  const { board, probes, told } = shape;
  return {
    board,
    late: row[1] === 1,
    measuredAt: row[2] as Instant,
    arrivedAt: row[3] as Instant,
    boot: row[4]!,
    sequence: row[5]!,
    ticks: row[6]!,
    inputs: row[7]!,
    values: probes.map((probe, index) => {
      const at = heads + widthOf(shape) * index;
      const raw = rawOf(row[at + 1]!, row[at + 2]!, texts);
      const said = told === true ? texts[row[at + width]!] : undefined;
      return keptValueOf(probe, row[at]!, said === undefined ? raw : ({ ...raw, said } as Raw));
    }),
  };
}

/** The cold junction of a voltage; what is none tells the form. */
const secondOf = (raw: Raw): number => {
  if (raw.form === 'voltage') return raw.coldJunction;
  if (raw.form === 'temperature') return Number.NaN;
  return raw.form === 'text' ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
};

function rawOf(number: number, second: number, texts: readonly string[]): Raw {
  if (Number.isNaN(second)) return { form: 'temperature', reported: number as MilliCelsius };
  if (second === Number.POSITIVE_INFINITY) return { form: 'text', text: texts[number]! };
  if (second === Number.NEGATIVE_INFINITY) return { form: 'none' };
  return { form: 'voltage', deciMicrovolts: number as DeciMicrovolt, coldJunction: second as MilliCelsius };
}

function keptValueOf(probe: string, number: number, raw: Raw): ScanValue {
  return Number.isInteger(number)
    ? { probe, quality: 'good', temperature: number as MilliCelsius, raw }
    : { probe, quality: qualities[number - half]!, raw };
}
