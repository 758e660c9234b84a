/**
 * Scans as bytes: columns, so that a day of sixteen probes packs and reads fast. Scans of one board with
 * the same probes form a group; `order` says which group each scan belongs to. FORMAT.md gives the exact
 * bytes. Nothing is rounded and nothing is left out: scans-read gives back the same scans.
 */
import { limits } from '../measure/limits.ts';
import { qualities, type Scan, type ScanValue, saidBy } from '../weld/scan.ts';
import { CanonicalFailure, encodeCanonical } from './canonical.ts';
import { RunsWriter, StepsWriter } from './columns.ts';
import { type Columns, type GroupColumns, type ProbeColumns, scansFormat } from './scans-columns.ts';

/** Forms of the raw number, by their index in the bytes. */
const rawForms = ['voltage', 'temperature', 'text', 'none'] as const;

export const encodeScans = (scans: readonly Scan[]): Uint8Array => encodeColumns(columnsOf(scans));

export const encodeColumns = (columns: Columns): Uint8Array => encodeCanonical(columns, limits.blockBytesMaximum);

export const columnsOf = (scans: readonly Scan[]): Columns => {
  if (scans.length > limits.scansPerBlockMaximum) {
    throw new CanonicalFailure('scans', `${scans.length}; a block holds at most ${limits.scansPerBlockMaximum}`);
  }
  const groups = new Map<string, GroupWriter>();
  const order = new RunsWriter();
  for (const scan of scans) {
    const key = JSON.stringify([scan.board, ...scan.values.map((value) => value.probe)]);
    let group = groups.get(key);
    if (group === undefined) {
      group = new GroupWriter(groups.size, scan);
      groups.set(key, group);
    }
    order.add(group.index, 'order');
    group.add(scan);
  }
  return { format: scansFormat, order: order.runs, groups: [...groups.values()].map((group) => group.columns()) };
};

class GroupWriter {
  readonly index: number;
  private readonly board: string;
  private readonly probes: readonly ProbeWriter[];
  private readonly boot = new RunsWriter();
  private readonly sequence = new StepsWriter();
  private readonly ticks = new StepsWriter();
  private readonly measuredAt = new StepsWriter();
  private readonly arrivedAt = new StepsWriter();
  private readonly late = new RunsWriter();
  private readonly inputs = new RunsWriter();

  constructor(index: number, first: Scan) {
    if (first.values.length > limits.probesMaximum) {
      throw new CanonicalFailure('values', `${first.values.length} probes; at most ${limits.probesMaximum}`);
    }
    this.index = index;
    this.board = first.board;
    this.probes = first.values.map((value) => new ProbeWriter(value.probe));
  }

  add(scan: Scan): void {
    this.boot.add(scan.boot, 'boot');
    this.sequence.add(scan.sequence, 'sequence');
    this.ticks.add(scan.ticks, 'ticks');
    this.measuredAt.add(scan.measuredAt, 'measuredAt');
    this.arrivedAt.add(scan.arrivedAt, 'arrivedAt');
    this.late.add(scan.late ? 1 : 0, 'late');
    this.inputs.add(scan.inputs, 'inputs');
    scan.values.forEach((value, index) => {
      this.probes[index]!.add(value);
    });
  }

  columns(): GroupColumns {
    return {
      board: this.board,
      boot: this.boot.runs,
      sequence: this.sequence.steps,
      ticks: this.ticks.steps,
      measuredAt: this.measuredAt.steps,
      arrivedAt: this.arrivedAt.steps,
      late: this.late.runs,
      inputs: this.inputs.runs,
      probes: this.probes.map((probe) => probe.columns()),
    };
  }
}

class ProbeWriter {
  private readonly probe: string;
  private readonly quality = new RunsWriter();
  private readonly form = new RunsWriter();
  private readonly temperature = new StepsWriter();
  private readonly voltage = new StepsWriter();
  private readonly coldJunction = new StepsWriter();
  private readonly reported = new StepsWriter();
  private readonly text: string[] = [];
  private readonly said: string[] = [];
  private anySaid = false;

  constructor(probe: string) {
    this.probe = probe;
  }

  add(value: ScanValue): void {
    const field = `values.${value.probe}`;
    if ((value.quality === 'good') !== (value.temperature !== undefined)) {
      throw new CanonicalFailure(
        field,
        `a temperature stands if and only if the quality is good; it is ${value.quality}`,
      );
    }
    this.quality.add(qualities.indexOf(value.quality), `${field}.quality`);
    this.form.add(rawForms.indexOf(value.raw.form), `${field}.raw.form`);
    if (value.temperature !== undefined) this.temperature.add(value.temperature, `${field}.temperature`);
    if (value.raw.form === 'voltage') {
      this.voltage.add(value.raw.deciMicrovolts, `${field}.raw.deciMicrovolts`);
      this.coldJunction.add(value.raw.coldJunction, `${field}.raw.coldJunction`);
    } else if (value.raw.form === 'temperature') this.reported.add(value.raw.reported, `${field}.raw.reported`);
    else if (value.raw.form === 'text') this.text.push(value.raw.text);
    const said = saidBy(value.raw);
    if (said === '') throw new CanonicalFailure(`${field}.raw.said`, 'empty; left out where there is nothing to say');
    this.anySaid ||= said !== undefined;
    this.said.push(said ?? '');
  }

  columns(): ProbeColumns {
    return {
      probe: this.probe,
      quality: this.quality.runs,
      form: this.form.runs,
      temperature: this.temperature.steps,
      voltage: this.voltage.steps,
      coldJunction: this.coldJunction.steps,
      reported: this.reported.steps,
      text: this.text,
      ...(this.anySaid ? { said: this.said } : {}),
    };
  }
}
