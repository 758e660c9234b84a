/**
 * Reads a judgement scenario: one text file that an inspector can review without reading code. Header lines
 * say the joint and its probes, rows give time, temperatures and acts, and the end says what is expected.
 * Between two rows temperatures run straight; "-" is no reading, "open" a flagged open circuit, "." nothing sent, all until the next row.
 */
import { after, type Instant, instant, milliCelsius } from '../../server/measure/quantity.ts';
import type { Input, SourceKind } from '../../server/weld/entry.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import type { Quality, Scan, ScanValue } from '../../server/weld/scan.ts';
import { said } from './scenario-act.ts';
import { afterFacts, afterOf, afterProcedureOf, optional } from './scenario-after.ts';
import { breaksOf } from './scenario-break.ts';
import { checksOf } from './scenario-checks.ts';
import { clock, passProcedureOf } from './scenario-pass.ts';
import { qualificationOf } from './scenario-qualified.ts';

export interface Scenario {
  readonly title: string;
  readonly joint: Joint;
  readonly inputs: readonly Input[];
  readonly end: Instant;
  readonly expected: readonly string[];
}

export const scenarioStart = instant(Date.UTC(2026, 2, 2, 6, 0, 0));

export function readScenario(text: string): Scenario {
  const lines = text.split('\n').map((line) => line.trimEnd());
  const title = lines[0]?.replace(/^# */, '') ?? '';
  const header = new Map<string, string[]>();
  let row = 1;
  for (; row < lines.length && !lines[row]!.startsWith('time'); row++) {
    const [key, ...rest] = lines[row]!.split(':');
    if (rest.length > 0) header.set(key!.trim(), [...(header.get(key!.trim()) ?? []), rest.join(':').trim()]);
  }
  const columns = lines[row]!.split(/\s+/)
    .filter((each) => each !== 'act')
    .slice(1);
  const rows: { at: number; cells: string[]; act: string }[] = [];
  for (row++; row < lines.length && lines[row] !== 'expect'; row++) {
    const line = lines[row]!;
    if (line.trim() === '' || line.startsWith('#')) continue;
    const cells = line.trim().split(/\s+/);
    rows.push({
      at: clock(cells[0]!),
      cells: cells.slice(1, columns.length + 1),
      act: cells.slice(columns.length + 1).join(' '),
    });
  }
  const expected = lines
    .slice(row + 1)
    .map((each) => each.trim())
    .filter((each) => each !== '');
  const period = Number(header.get('period')?.[0] ?? '1') * 1000;
  const joint = jointOf(header);
  const end = after(scenarioStart, rows.at(-1)!.at);
  return { title, joint, inputs: inputsOf(joint, columns, rows, period, header), end, expected };
}

function jointOf(header: Map<string, string[]>): Joint {
  const facts = Object.fromEntries(
    (header.get('joint')?.[0] ?? '').split(',').map((each) => {
      const [key, ...value] = each.trim().split(' ');
      return [key, value.join(' ')];
    }),
  );
  const number = (key: string): number | undefined => (facts[key] === undefined ? undefined : Number(facts[key]));
  const thickness = number('thickness') ?? 80;
  const limits = {
    preheatMinimumCelsius: number('minimum'),
    interpassMaximumCelsius: number('interpass'),
    maintenanceMinimumCelsius: number('maintenance'),
    highestCelsius: number('highest'),
    evennessMaximumKelvin: number('evenness'),
    soakHoldMinutes: number('hold'),
    zonePlacesRequired: number('places'),
    throughThicknessHoldMinutes: number('core'),
    guardFactor: number('guard'),
  };
  const analyses = [
    {
      origin: 'heat certificate',
      percent: { C: 0.17, Si: 0.35, Mn: 1.45, Cr: 0.05, Mo: 0.01, V: 0.005, Ni: 0.05, Cu: 0.15, Nb: 0.02, B: 0 },
    },
  ];
  return jointSchema.parse({
    format: 'preheat joint 1',
    id: 'scenario',
    title: 'scenario',
    jointType: 'plate butt',
    parts: (['A', 'B'] as const).map((side) => ({
      id: `plate-${side.toLowerCase()}`,
      side,
      thicknessMillimetres: thickness,
      analyses,
      ...optional({ yieldMegapascals: number('yield') }),
      ...(facts.far === undefined ? {} : { farSide: facts.far }),
    })),
    consumable: { hydrogen: { millilitresPer100Grams: 5 } },
    process: facts.process ?? '121',
    heatInput: { kilojoulesPerMillimetre: number('energy') ?? 1.5 },
    heating: {
      means: facts.means ?? 'resistance pads',
      face: facts.heated ?? 'front',
      whileWelding: facts.heaters ?? 'off',
      ...optional({ halfWidthMillimetres: number('half-width'), airCelsius: number('air') }),
    },
    probes: (header.get('probe') ?? []).map((line, index) => {
      const [id, use, side, face, distance, wire] = line.split(/,\s*/);
      return {
        id,
        use,
        board: 'board-1',
        channel: index + 1,
        thermocouple: 'K',
        ...(header.has('after') && afterFacts(header).has('spots') ? { attachedBy: 'capacitor discharge' } : {}),
        ...(wire === undefined ? {} : { wire, extension: 'none', attachmentErrorKelvin: 0 }),
        ...(side === undefined
          ? {}
          : { place: { part: `plate-${side.toLowerCase()}`, side, face, distanceMillimetres: Number(distance) } }),
      };
    }),
    procedure: {
      id: 'P-1',
      revision: '0',
      decisionRule: facts.guard === undefined ? 'simple acceptance' : 'guarded',
      // Asked only where the scenario is about it.
      ambientCheck: facts.check ?? 'not asked',
      ...(facts.calibration === undefined ? {} : { calibration: facts.calibration }),
      ...optional(limits),
      ...afterProcedureOf(header),
      ...passProcedureOf(header),
      ...breaksOf(header),
      ...checksOf(header),
      ...qualificationOf(header),
    },
    ...afterOf(header),
    ...(facts.arc === undefined ? {} : { arcSignal: { board: 'board-1', input: Number(facts.arc) } }),
    ...(header.has('instrument') ? { instruments: header.get('instrument')!.map(instrumentOf) } : {}),
  });
}

/** "W1, wire lot, class IEC 60584-1 class 1, certificate C-1, due 2026-03-02": facts by their first word. */
function instrumentOf(line: string): unknown {
  const [id, kind, ...rest] = line.split(/,\s*/);
  const facts = Object.fromEntries(rest.map((each) => [each.split(' ')[0]!, each.split(' ').slice(1).join(' ')]));
  return {
    id,
    kind,
    ...(kind === 'wire lot' ? { thermocouple: 'K' } : {}),
    ...(kind === 'board' ? { board: 'board-1' } : {}),
    ...(facts.class === undefined ? {} : { toleranceClass: facts.class }),
    ...(facts.certificate === undefined ? {} : { certificate: facts.certificate }),
    ...(facts.due === undefined ? {} : { dueOn: facts.due }),
    ...optional({
      maximumErrorKelvin: facts.error === undefined ? undefined : Number(facts.error),
      coldJunctionErrorKelvin: facts.junction === undefined ? undefined : Number(facts.junction),
    }),
  };
}

function inputsOf(
  joint: Joint,
  columns: string[],
  rows: { at: number; cells: string[]; act: string }[],
  period: number,
  header: Map<string, string[]>,
): Input[] {
  const inputs: Input[] = [
    {
      type: 'station',
      at: scenarioStart,
      event: {
        kind: 'opened',
        joint,
        source: { kind: (header.get('source')?.[0] ?? 'measured') as SourceKind, detail: 'scenario' },
        periodMilliseconds: period,
        openedBy: 'Ada',
        rules: 'test',
        station: 'test',
      },
    },
  ];
  let sequence = 0;
  let arc = 0;
  rows.forEach((from, index) => {
    const at = after(scenarioStart, from.at);
    const to = rows[index + 1];
    const until = to?.at ?? from.at + 1;
    // "arc on" and "arc off" are no acts: the board's first input says so from that row on.
    const words = from.act.split(';').map((each) => each.trim());
    if (words.includes('arc on')) arc = 1;
    if (words.includes('arc off')) arc = 0;
    const acts = words
      .filter((each) => each !== '' && !each.startsWith('arc '))
      .map((act): Input => ({ type: 'act', at, ...said(act, at, scenarioStart) }));
    if (from.cells.every((cell) => cell === '.')) inputs.push(...acts);
    for (let time = from.at; time < until; time += period) {
      if (from.cells.every((cell) => cell === '.')) continue;
      const share = to === undefined ? 0 : (time - from.at) / (to.at - from.at);
      const values = columns.flatMap((probe, column): ScanValue[] =>
        value(probe, from.cells[column]!, to?.cells[column], share),
      );
      const when = after(scenarioStart, time);
      const scan: Scan = {
        board: 'board-1',
        boot: 1,
        sequence: ++sequence,
        ticks: time,
        measuredAt: when,
        arrivedAt: when,
        late: false,
        inputs: arc,
        values,
      };
      inputs.push({ type: 'scan', scan });
      // A reading and an act of the same instant: the reading came first.
      if (time === from.at) inputs.push(...acts);
    }
  });
  return inputs;
}

const words: { [word: string]: Quality } = { '-': 'no reading', open: 'open', range: 'out of range' };

function value(probe: string, from: string, to: string | undefined, share: number): ScanValue[] {
  if (from === '.') return [];
  const quality = words[from];
  if (quality !== undefined) return [{ probe, quality, raw: { form: 'none' } }];
  const start = Number(from);
  const end = to === undefined || words[to] !== undefined || to === '.' ? start : Number(to);
  const temperature = milliCelsius(start + (end - start) * share);
  return [{ probe, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } }];
}
