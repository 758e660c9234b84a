/**
 * The real firmware through a real job: its image in a simulated processor, converters at their registers, bytes
 * through a pseudo-terminal and the serial library into the trip, and the judged record at the end. 12.5 mm, heat off
 * and 60 s of waiting, three passes, under eight minutes of the board's time; with a broken wire, a converter that
 * loses its settings, ten seconds without a line, a burst of garbage, and a restart of the board on the way.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { judgeAll } from '../../server/judgement/judge.ts';
import { firmwareBoardOf } from '../../server/station/firmware-board.ts';
import { followActs } from '../../server/station/follow-acts.ts';
import type { Act, Input, NamedAct } from '../../server/weld/entry.ts';
import type { Scan } from '../../server/weld/scan.ts';
import { openPseudoTerminal } from '../../server/wire/pseudo-terminal.ts';
import { holeText } from '../../server/wording/hole.ts';
import { plainJoint, plainPart, plainProcedure } from '../support/plain-joint.ts';
import { createTerminalStation } from '../support/terminal-station.ts';

const image = new URL('../../firmware-protocol/board/image/board.hex', import.meta.url);
const probes = (['A', 'B', 'A', 'B'] as const).map((side, index) => ({
  id: `T${index + 1}`,
  board: 'PB-0042',
  channel: index + 1,
  thermocouple: 'K' as const,
  use: index < 3 ? ('zone' as const) : ('interpass' as const),
  place: { part: 'plate', side, face: 'front' as const, distanceMillimetres: index < 3 ? 50 : 10 },
}));
const joint = plainJoint({
  id: 'short',
  parts: [plainPart({ thicknessMillimetres: 12.5 })],
  heatInput: { kilojoulesPerMillimetre: 0.8 },
  heating: { means: 'gas torch', face: 'front', whileWelding: 'off', setPointCelsius: 110 },
  procedure: { ...plainProcedure, preheatMinimumCelsius: 60, interpassMaximumCelsius: 200 },
  probes,
});
const welder = { name: 'Jorun Vik', role: 'welder' } as const;
const heater = { name: 'Imke Sorel', role: 'heater operator' } as const;

const terminal = await openPseudoTerminal();
const subject = `the firmware in a short job${terminal === undefined ? ' (skipped: this system has no pseudo-terminal)' : ''}`;

describe.skipIf(terminal === undefined)(subject, () => {
  const board = firmwareBoardOf(image, joint);
  let station: Awaited<ReturnType<typeof createTerminalStation>>;
  let inputs: Input[];
  let scans: Scan[];
  let judged: Assessment;
  let seconds = 0;
  /** Of the first start, when the cable went, when the noise came, when the board was reset; seconds. */
  const at = { unplugged: 0, garbage: 0, reset: 0 };

  const run = async (count: number): Promise<void> => {
    await station.run(count * 1000);
    seconds += count;
  };
  const until = async (done: (assessment: Assessment) => boolean, longest: number): Promise<void> => {
    for (let waited = 0; !done(station.pipeline.run(joint.id)!.assessment); waited += 1) {
      if (waited >= longest) {
        const a = station.pipeline.run(joint.id)!.assessment;
        throw new Error(
          `not so within ${longest} s ${seconds}` +
            JSON.stringify([a.soak, a.ready, a.conditions, a.probes.map((p) => p.temperature)]),
        );
      }
      await run(1);
    }
  };
  const act = (who: NamedAct['who'], what: Act): void => void station.pipeline.act(joint.id, { who, act: what });

  beforeAll(async () => {
    station = await createTerminalStation(terminal!, board);
    followActs(station.pipeline, joint, board);
    await run(3);
    void station.pipeline.open(joint, welder.name);
    await run(1);
    act(heater, { kind: 'heat', state: 'on' });
    await run(8);
    board.inject({ kind: 'channel', channel: 1, mishap: 'open' });
    await run(8);
    board.inject({ kind: 'channel', channel: 1, mishap: 'none' });
    board.converter(2, 'missing');
    await run(8);
    board.converter(2, 'none');
    await run(4);
    at.unplugged = seconds;
    board.inject({ kind: 'unplugged' });
    await run(10);
    board.inject({ kind: 'plugged in' });
    await run(12);
    at.garbage = seconds;
    board.inject({ kind: 'garbage', bytes: 600 });
    board.inject({ kind: 'cut line' });
    await run(15);
    at.reset = seconds;
    board.reboot();
    await until(({ probes: all }) => all.every(({ temperature = 0 }) => temperature > 72_000), 200);
    act(heater, { kind: 'heat', state: 'off' });
    await until(({ ready }) => ready, 90);
    for (const pass of ['1', '2', '3']) {
      act(welder, { kind: 'pass start', pass, passKind: 'fill', welder: welder.name });
      await run(15);
      act(welder, { kind: 'pass end', pass });
      await run(10);
    }
    act(welder, { kind: 'close' });
    await run(2);
    inputs = [...station.record.inputs(joint.id)];
    scans = inputs.flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
    judged = judgeAll(inputs).assessment;
  }, 120_000);
  afterAll(() => station?.end());

  it('is judged from what the converters measured, and says that software played it', () => {
    expect(seconds).toBeLessThan(480);
    expect(judged).toMatchObject({ phase: 'closed', verdict: 'complies', source: { kind: 'simulated' } });
    expect(judged.soak).toMatchObject({ rule: 'wait', required: 60_000, state: 'done' });
    expect(judged.passes.map(({ pass }) => pass)).toEqual(['1', '2', '3']);
    for (const { probe, temperature } of scans.at(-1)!.values) {
      const channel = probes.find(({ id }) => id === probe)!.channel;
      expect(temperature! / 1000).toBeGreaterThan(board.celsius(channel) - 1.5);
      expect(temperature! / 1000).toBeLessThan(board.celsius(channel) + 1.5);
    }
    expect(scans.filter((scan) => (scan.inputs & 1) !== 0).length).toBeGreaterThan(40);
  });

  it('names the broken wire and the converter that did not answer, and keeps what was flagged as evidence', () => {
    const named = judged.findings.map((finding) => [finding.kind, 'probe' in finding ? finding.probe : '']);
    expect(named).toContainEqual(['open circuit', 'T1']);
    expect(named).toContainEqual(['silent', 'T2']);
    const flagged = scans.flatMap(({ values }) => values.filter(({ quality }) => quality === 'open'));
    expect(flagged.length).toBeGreaterThan(5);
    expect(flagged.every(({ temperature }) => temperature === undefined)).toBe(true);
  });

  const firstStart = (): Scan[] => scans.filter(({ boot }) => boot === 1).sort((a, b) => a.sequence - b.sequence);

  it('loses no reading by ten seconds without a line and a burst of garbage: they come late, each once, at their own time', () => {
    const numbers = firstStart().map(({ sequence }) => sequence);
    expect(numbers).toEqual(numbers.map((_, index) => numbers[0]! + index));
    const late = firstStart().filter((scan) => scan.late);
    expect(late.filter(({ ticks }) => ticks > at.unplugged * 1000).length).toBeGreaterThanOrEqual(11);
    expect(late.some(({ ticks }) => ticks >= at.garbage * 1000)).toBe(true);
    const offsets = firstStart().map(({ measuredAt, ticks }) => measuredAt - ticks);
    expect(Math.max(...offsets) - Math.min(...offsets)).toBeLessThan(600);
    expect(station.link.counts()).toMatchObject({ linesMissing: 0, linesBad: expect.any(Number) });
    expect(station.link.counts().linesBad).toBeGreaterThan(0);
  });

  it('tells in the record what came late, and that the hole after the restart is the restart', () => {
    const holes = inputs.flatMap((input) =>
      input.type === 'station' && input.event.kind === 'hole' ? [input.event] : [],
    );
    expect(holes.map(({ fate }) => fate)).toEqual(['sent again', 'sent again', 'board started again']);
    expect(holes.slice(0, 2).map(({ came }) => came)).toEqual(holes.slice(0, 2).map(({ from, to }) => to! - from + 1));
    expect(holeText(holes[2]!)).toContain('Board PB-0042 started again');
    expect(holes[2]!.from).toBe(firstStart().at(-1)!.sequence + 1);
    expect(scans.find(({ boot }) => boot === 2)!.measuredAt - firstStart().at(-1)!.measuredAt).toBeGreaterThan(1000);
  });

  it('has RAM to spare', () => expect(board.ramLeft()).toBeGreaterThan(96));
});
