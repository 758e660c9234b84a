import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import type { Frame, HostFrame, Sample } from '../../../firmware-protocol/codec/frame.ts';
import { type Board, type BoardOptions, createBoard } from '../../../firmware-protocol/emulator/board.ts';

fc.configureGlobal({ seed: 1 });

const board = (options: Partial<BoardOptions> = {}): Board =>
  createBoard({
    identity: 'PB-0001',
    seed: 11,
    channels: [
      { channel: 1, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 75 } },
      { channel: 2, thermocouple: 'J', where: { at: 'part', depth: 1, distanceMillimetres: 75 } },
      { channel: 3, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 10 } },
      { channel: 4, thermocouple: 'K', where: { at: 'air' } },
    ],
    ...options,
  });

const framesOf = (bytes: string): Frame[] =>
  bytes.split('\n').flatMap((line) => {
    const decoded = decode(line);
    return decoded.ok ? [decoded.frame] : [];
  });

const samplesOf = (bytes: string): Sample[] =>
  framesOf(bytes).filter((frame): frame is Sample => frame.kind === 'sample');

const told = (to: Board, ...commands: HostFrame[]): Frame[] => {
  to.receive(commands.map((command) => `${encode(command)}\n`).join(''));
  return framesOf(to.advance(1));
};

describe('an emulated board', () => {
  it('says hello after its start, that it is software, and then a sample each period', () => {
    const bytes = board().advance(3000);
    expect(bytes.startsWith('\nhello ')).toBe(true);
    expect(bytes.endsWith('\n')).toBe(true);
    const [hello, ...samples] = framesOf(bytes);
    expect(hello).toMatchObject({ kind: 'hello', simulated: true, board: 'PB-0001', ticks: 300, boot: 1 });
    expect(samples).toMatchObject([
      { kind: 'sample', sequence: 0, ticks: 1000, boot: 1 },
      { kind: 'sample', sequence: 1, ticks: 2000 },
      { kind: 'sample', sequence: 2, ticks: 3000 },
    ]);
  });

  it('sends the same bytes however its time is cut, and other ones for another seed', () => {
    const story = (one: Board, pieces: readonly number[]): string => {
      one.heater({ on: true, setPointCelsius: 100 });
      return pieces.map((piece) => one.advance(piece)).join('');
    };
    fc.assert(
      fc.property(fc.array(fc.nat({ max: 3000 }), { minLength: 1, maxLength: 8 }), (pieces) => {
        const whole = pieces.reduce((sum, piece) => sum + piece, 0);
        expect(story(board(), pieces)).toBe(story(board(), [whole]));
      }),
      { numRuns: 30 },
    );
    expect(board({ seed: 12 }).advance(2000)).not.toBe(board().advance(2000));
  });

  it('never throws at what it hears', () => {
    const bytes = fc.string({ unit: fc.nat({ max: 255 }).map((code) => String.fromCharCode(code)), maxLength: 2000 });
    fc.assert(
      fc.property(fc.array(bytes), (pieces) => {
        const one = board();
        one.advance(500);
        for (const piece of pieces) one.receive(piece);
        expect(framesOf(one.advance(1000)).at(-1)).toMatchObject({ kind: 'sample' });
      }),
      { numRuns: 30 },
    );
  });
});

describe('its answers', () => {
  it('name the command and do what it says', () => {
    const one = board();
    one.advance(1000);
    expect(told(one, { kind: 'ask hello', command: 1 })).toMatchObject([
      { kind: 'hello', ticks: 1000 },
      { kind: 'reply', command: 1, outcome: 'done' },
    ]);
    expect(told(one, { kind: 'lamp', command: 2, state: 'fast' }, { kind: 'horn', command: 3, state: 'on' })).toEqual([
      { kind: 'reply', command: 2, outcome: 'done' },
      { kind: 'reply', command: 3, outcome: 'done' },
    ]);
    expect(one.outputs()).toEqual({ lamp: 'fast', horn: 'on', permission: 'withheld' });
    told(one, { kind: 'period', command: 4, periodMilliseconds: 250 });
    const ticks = samplesOf(one.advance(1000)).map((sample) => sample.ticks);
    expect(ticks.map((tick) => tick - ticks[0]!)).toEqual([0, 250, 500, 750]);
  });

  it('send kept samples again as they were, oldest first, and say when some are gone', () => {
    const one = board({ linesKept: 3 });
    const sent = samplesOf(one.advance(5000));
    expect(told(one, { kind: 'send again', command: 9, fromSequence: 3 })).toEqual([
      { ...sent[3], resent: true },
      { ...sent[4], resent: true },
      { kind: 'reply', command: 9, outcome: 'done' },
    ]);
    const all = told(one, { kind: 'send again', command: 10, fromSequence: 0 });
    expect(all).toHaveLength(4);
    expect(all.at(-1)).toEqual({ kind: 'reply', command: 10, outcome: 'not kept' });
  });

  it('keep nothing where nothing is kept', () => {
    const one = board({ linesKept: 0 });
    one.advance(3000);
    expect(told(one, { kind: 'send again', command: 9, fromSequence: 0 })).toEqual([
      { kind: 'reply', command: 9, outcome: 'not kept' },
    ]);
  });

  it('refuse what they do not know, and say nothing to a damaged line', () => {
    const one = board();
    one.advance(1000);
    // Check values made by another implementation of the CRC.
    one.receive('siren command=77 state=on ~b109\nhorn command=5 state=on ~95de\n');
    expect(framesOf(one.advance(1))).toEqual([{ kind: 'reply', command: 77, outcome: 'refused' }]);
    expect(one.outputs().horn).toBe('off');
  });

  it('take permission back without a heartbeat, and after a start', () => {
    const one = board();
    one.advance(1000);
    told(one, { kind: 'permission', command: 1, state: 'given' });
    for (let beat = 0; beat < 5; beat += 1) {
      one.advance(4000);
      told(one, { kind: 'heartbeat', command: 2 });
    }
    expect(one.outputs().permission).toBe('given');
    one.advance(5000);
    expect(one.outputs().permission).toBe('withheld');
    told(one, { kind: 'permission', command: 3, state: 'given' });
    one.reboot();
    one.advance(1000);
    expect(one.outputs()).toEqual({ lamp: 'off', horn: 'off', permission: 'withheld' });
  });
});

describe('an emulated board whose host falls silent (PROTOCOL.md, section 5)', () => {
  const afterSilence = (...commands: HostFrame[]) => {
    const one = board();
    one.advance(1000);
    told(one, ...commands);
    one.advance(4_990);
    const before = one.outputs();
    one.advance(10);
    return { one, before, after: one.outputs() };
  };

  it('shows fault on a lamp that is not off, from the fifth second on and until the next word about it', () => {
    const { one, before, after } = afterSilence(
      { kind: 'lamp', command: 1, state: 'on' },
      { kind: 'permission', command: 2, state: 'given' },
    );
    expect(before).toMatchObject({ lamp: 'on', permission: 'given' });
    expect(after).toMatchObject({ lamp: 'fast', permission: 'withheld' });
    told(one, { kind: 'heartbeat', command: 3 });
    expect(one.outputs(), 'a heartbeat alone gives nothing back').toMatchObject({
      lamp: 'fast',
      permission: 'withheld',
    });
    told(one, { kind: 'lamp', command: 4, state: 'slow' });
    expect(one.outputs().lamp).toBe('slow');
  });

  it('leaves a dark lamp dark, and expects no heartbeat of a host that never sent one', () => {
    expect(afterSilence({ kind: 'heartbeat', command: 1 }).after.lamp).toBe('off');
    expect(afterSilence({ kind: 'lamp', command: 1, state: 'on' }).after.lamp).toBe('on');
  });
});

describe('what can be done to it', () => {
  const channelOf = (sample: Sample | undefined, channel: number) =>
    sample?.values.find((value) => value.channel === channel);

  it.each([
    ['open', 'open'],
    ['short-to-ground', 'short to ground'],
    ['short-to-supply', 'short to supply'],
    ['cold-junction-out-of-range', 'cold junction out of range'],
    ['out-of-range', 'out of range'],
  ] as const)('%s is flagged, and no number stands in its place', (mishap, fault) => {
    const one = board();
    one.inject({ kind: 'channel', channel: 2, mishap });
    const [sample] = samplesOf(one.advance(1000));
    expect(channelOf(sample, 2)).toEqual({ channel: 2, faults: [fault], reading: { form: 'none' } });
    expect(channelOf(sample, 1)?.faults).toEqual([]);
    one.inject({ kind: 'channel', channel: 2, mishap: 'none' });
    expect(channelOf(samplesOf(one.advance(1000))[0], 2)?.faults).toEqual([]);
  });

  it('a stuck channel repeats its number to the digit', () => {
    const one = board();
    one.heater({ on: true, setPointCelsius: 200 });
    one.advance(60_000);
    one.inject({ kind: 'channel', channel: 1, mishap: 'stuck' });
    const values = samplesOf(one.advance(120_000)).map((sample) => JSON.stringify(channelOf(sample, 1)));
    expect(new Set(values).size).toBe(1);
  });

  it('a reversed wire falls as the steel is heated', () => {
    const one = board();
    one.inject({ kind: 'channel', channel: 1, mishap: 'reversed-terminal' });
    one.heater({ on: true, setPointCelsius: 150 });
    const samples = samplesOf(one.advance(3_000_000));
    const voltage = (sample: Sample | undefined): number => {
      const reading = channelOf(sample, 1)?.reading;
      return reading?.form === 'voltage' ? reading.deciMicrovolts : Number.NaN;
    };
    expect(voltage(samples.at(-1))).toBeLessThan(voltage(samples[0]) - 30_000);
  });

  it('a detached junction falls to the air in minutes, while the steel stays hot', () => {
    const one = board();
    one.heater({ on: true, setPointCelsius: 150 });
    one.advance(7_200_000);
    one.inject({ kind: 'channel', channel: 1, mishap: 'detached' });
    one.advance(240_000);
    expect(one.celsius(1)).toBeLessThan(22);
    expect(one.celsius(2)).toBeGreaterThan(130);
  });

  it('a tip that is touched goes toward the hand within seconds, and back when it is let go; the others stay', () => {
    const one = board();
    one.advance(10_000);
    const before = [1, 2, 4].map((channel) => one.celsius(channel));
    for (const channel of [1, 4]) one.inject({ kind: 'touch', channel, celsius: 33 });
    one.advance(15_000);
    expect(one.celsius(1) - before[0]!).toBeGreaterThan(2);
    expect(one.celsius(1)).toBeLessThan(33);
    expect(one.celsius(4) - before[2]!).toBeGreaterThan(5);
    expect(one.celsius(2)).toBeCloseTo(before[1]!, 1);
    for (const channel of [1, 4]) one.inject({ kind: 'touch', channel, celsius: undefined });
    one.advance(200_000);
    expect(one.celsius(1)).toBeCloseTo(before[0]!, 1);
    expect(one.celsius(4)).toBeCloseTo(before[2]!, 1);
  });

  it('while the cable is out its lines are lost, not kept, and the board runs on', () => {
    const one = board();
    one.advance(2000);
    one.inject({ kind: 'unplugged' });
    expect(one.advance(3000)).toBe('');
    one.receive(`${encode({ kind: 'horn', command: 1, state: 'on' })}\n`);
    one.inject({ kind: 'plugged in' });
    expect(samplesOf(one.advance(1000)).map((sample) => sample.sequence)).toEqual([5]);
    expect(one.outputs().horn).toBe('off');
  });

  it('a restart begins ticks and sequence anew under the next boot number, with its own period', () => {
    const one = board();
    one.advance(5000);
    told(one, { kind: 'period', command: 1, periodMilliseconds: 100 });
    one.reboot();
    expect(one.advance(299)).toBe('\n');
    expect(framesOf(one.advance(1000))).toMatchObject([
      { kind: 'hello', boot: 2, ticks: 300, periodMilliseconds: 1000 },
      { kind: 'sample', boot: 2, sequence: 0, ticks: 1000 },
    ]);
  });

  it('noise and a cut line cost lines, and no line is ever read wrong', () => {
    const quiet = samplesOf(board().advance(20_000)).map(({ sequence, ticks }) => `${sequence} ${ticks}`);
    const one = board();
    let bytes = '';
    for (let second = 0; second < 20; second += 1) {
      if (second % 5 === 1) one.inject({ kind: 'garbage', bytes: 200 });
      if (second % 5 === 3) one.inject({ kind: 'cut line' });
      bytes += one.advance(1000);
    }
    const loud = samplesOf(bytes).map(({ sequence, ticks }) => `${sequence} ${ticks}`);
    expect(loud.length).toBeLessThan(quiet.length);
    // Noise costs the line it stands before; a cut line costs itself and the one that it is glued to.
    expect(loud.length).toBeGreaterThanOrEqual(20 - 4 - 4 * 2);
    for (const sample of loud) expect(quiet).toContain(sample);
  });

  it('a channel that it does not have cannot be spoiled', () => {
    expect(() => board().inject({ kind: 'channel', channel: 9, mishap: 'open' })).toThrow('no channel 9');
  });
});
