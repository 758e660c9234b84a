/**
 * The firmware's core in C against the golden lines and against the board in TypeScript: the same bytes, the same
 * answers. All of it runs under the address and undefined-behaviour sanitizers, which end the program at a fault.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withCheck } from '../../../firmware-protocol/codec/check.ts';
import { decode } from '../../../firmware-protocol/codec/decode.ts';
import { encode } from '../../../firmware-protocol/codec/encode.ts';
import {
  type BoardFrame,
  type Frame,
  faults,
  type Hello,
  type Sample,
} from '../../../firmware-protocol/codec/frame.ts';
import { createListener } from '../../../firmware-protocol/emulator/listener.ts';
import { settingsMemory } from '../../../firmware-protocol/simulator/settings.ts';
import { anyFrame } from '../../support/any-frame.ts';
import { hex, make, missing, tell, unhex } from '../../support/host-board.ts';

interface Vector {
  readonly name: string;
  readonly line: string;
  readonly frame: Frame;
  readonly canonical?: false;
}

const read = <Kind>(file: string): readonly Kind[] => {
  const url = new URL(`../../../firmware-protocol/vectors/${file}`, import.meta.url);
  return (JSON.parse(readFileSync(url, 'utf8')) as { readonly vectors: readonly Kind[] }).vectors;
};

const good = read<Vector>('good.json');
const bad = read<{ readonly line: string }>('bad.json');
const streams = read<{ readonly bytes: string; readonly lines: readonly string[] }>('streams.json');

/** The reference firmware cannot measure faster; PROTOCOL.md lets it refuse. */
const shortestPeriod = 300;

/** What the board in TypeScript answers to a line; hellos by their kind alone, since the boards are two. */
function answered(line: string): string[] {
  const said: BoardFrame[] = [];
  let refuse = false;
  const listener = createListener({
    say: (frame) => said.push(frame),
    hello: () => ({ kind: 'hello' }) as Hello,
    kept: () => [],
    setPeriod: (milliseconds) => {
      refuse = milliseconds < shortestPeriod;
    },
  });
  listener.hear(`\n${line}\n`);
  return said.map((frame) =>
    frame.kind === 'reply' ? encode(refuse ? { ...frame, outcome: 'refused' } : frame) : frame.kind,
  );
}

const plain = (sent: string): string[] =>
  unhex(sent)
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => (line.startsWith('hello') ? 'hello' : line));

const ticksOf = (ticks: number): string => `${Math.floor(ticks / 1e9)} ${ticks % 1e9}`;
const bit = (yes: boolean): number => (yes ? 1 : 0);

/** The same frame in the words of the host's port. */
function encodeTold(frame: Hello | Sample | Extract<Frame, { kind: 'reply' }>): string {
  if (frame.kind === 'reply') {
    return `reply ${frame.command} ${['done', 'refused', 'not kept'].indexOf(frame.outcome)}`;
  }
  if (frame.kind === 'hello') {
    const channels = frame.channels.map((each) => `${each.channel} ${forms.indexOf(each.form)} ${each.thermocouple}`);
    const { board, firmware, simulated, boot, ticks, periodMilliseconds, inputs, linesKept } = frame;
    const head = `hello ${board} ${firmware} ${bit(simulated)} ${boot} ${ticksOf(ticks)} ${periodMilliseconds}`;
    return `${head} ${inputs} ${linesKept} ${channels.join(' ')}`;
  }
  const values = frame.values.map(({ channel, faults: told, reading }) => {
    const bits = faults.reduce((sum, fault, index) => sum + (told.includes(fault) ? 1 << index : 0), 0);
    const numbers =
      reading.form === 'voltage'
        ? [reading.deciMicrovolts, reading.coldJunctionCentiCelsius]
        : [reading.form === 'temperature' ? reading.centiCelsius : 0, 0];
    return `${channel} ${forms.indexOf(reading.form)} ${bits} ${numbers.join(' ')}`;
  });
  const { boot, sequence, ticks, resent, inputs } = frame;
  return `sample ${boot} ${sequence} ${ticksOf(ticks)} ${bit(resent)} ${inputs} ${values.join(' ')}`;
}

const forms = ['none', 'voltage', 'temperature'];
const ofBoard = ({ kind }: Frame): boolean => kind === 'hello' || kind === 'sample' || kind === 'reply';

/** Lines with one thing wrong, or right all the same: characters changed, taken out or put in, and the check made anew. */
const bentLine = fc
  .tuple(
    anyFrame.filter((frame) => !ofBoard(frame)),
    fc.array(
      fc.tuple(fc.nat(60), fc.constantFrom('', ' ', '=', '~', '0', '9', 'a', 'Z', '-', ' x=1', ' state=on', '\x7f')),
    ),
    fc.boolean(),
  )
  .map(([frame, changes, checked]) => {
    let content = encode(frame).slice(0, -6);
    for (const [place, text] of changes.slice(0, 3))
      content = content.slice(0, place) + text + content.slice(place + 1);
    return checked ? withCheck(content) : `${content} ~0000`;
  });

const absent = missing('gcc', 'make');

describe.skipIf(absent !== '')(`the core of the firmware${absent}`, () => {
  let made: ReturnType<typeof make>;
  beforeAll(() => {
    made = make('host');
  }, 120_000);
  afterAll(() => made?.remove());

  const heard = (lines: readonly string[]): string[][] => {
    const sent = tell(
      made.folder,
      lines.flatMap((line) => ['start', `hear ${hex(`\n${line}\n`)}`, 'pass 10']),
    );
    return lines.map((_, index) => [...plain(sent[3 * index + 1]!), ...plain(sent[3 * index + 2]!)]);
  };

  it('writes every golden line of a board to the byte', () => {
    const own = good.filter(({ frame, canonical }) => ofBoard(frame) && canonical !== false);
    const sent = tell(
      made.folder,
      own.map(({ frame }) => encodeTold(frame as never)),
    );
    expect(sent.map(unhex)).toEqual(own.map(({ line }) => `${line}\n`));
    expect(own.length).toBeGreaterThan(15);
  });

  it('writes arbitrary lines as the codec does', () => {
    const frames = fc.sample(anyFrame, { numRuns: 2000, seed: 7 }).filter(ofBoard);
    const sent = tell(
      made.folder,
      frames.map((frame) => encodeTold(frame as never)),
    );
    expect(sent.map(unhex)).toEqual(frames.map((frame) => `${encode(frame)}\n`));
  });

  it('answers every golden line, good or bad, as the board in TypeScript does', () => {
    const lines = [...good, ...bad].map(({ line }) => line);
    expect(heard(lines)).toEqual(lines.map(answered));
    expect(heard(lines).filter((answers) => answers.length > 0).length).toBeGreaterThanOrEqual(20);
  });

  it('sees in every golden stream the commands that are in it', () => {
    const sent = tell(
      made.folder,
      streams.flatMap(({ bytes }) => ['start', `hear ${hex(bytes)}`]),
    );
    const expected = streams.map(({ lines }) => lines.flatMap(answered));
    expect(streams.map((_, index) => plain(sent[2 * index + 1]!))).toEqual(expected);
  });

  it('answers bent commands as the board in TypeScript does', () => {
    const lines = fc.sample(bentLine, { numRuns: 4000, seed: 11 });
    expect(heard(lines)).toEqual(lines.map(answered));
  });

  it('keeps whole lines and no fault under noise of every kind', () => {
    for (const seed of [1, 2, 3]) {
      const said = execFileSync(join(made.folder, 'fuzz'), [String(seed), '20000'], { encoding: 'utf8' });
      expect(Number.parseInt(said, 10)).toBeGreaterThan(1000);
    }
  });

  const samples = (sent: string): Sample[] =>
    unhex(sent)
      .split('\n')
      .flatMap((line) => {
        const decoded = decode(line);
        return decoded.ok && decoded.frame.kind === 'sample' ? [decoded.frame] : [];
      });
  const command = (frame: Frame): string => `hear ${hex(`\n${encode(frame)}\n`)}`;

  it('holds eight channels for half a minute and sends them again as they were', () => {
    const [, first, , told] = tell(made.folder, [
      'start',
      'pass 45250',
      command({ kind: 'send again', command: 3, fromSequence: 0 }),
      'pass 700',
    ]);
    const measured = samples(first!);
    expect(measured.map(({ sequence }) => sequence)).toEqual(Array.from({ length: 45 }, (_, index) => index));
    const sent = samples(told!);
    expect(sent.length).toBeGreaterThanOrEqual(30);
    expect(sent).toEqual(measured.slice(-sent.length).map((each) => ({ ...each, resent: true })));
    expect(plain(told!).at(-1)).toBe(withCheck('reply command=3 outcome=not-kept'));
  });

  it('tells each fault of a converter by its letter, and sends no number that is none', () => {
    const end = 131_071;
    const sent = tell(made.folder, [
      'forget',
      'start',
      'unit 0 1000 6400 1 1',
      'unit 1 1000 6400 2 1',
      'unit 2 1000 6400 128 1',
      `unit 3 ${end} 6400 0 1`,
      'unit 4 1000 -15000 0 1',
      'unit 5 1000 6400 0 0',
      'unit 6 -16777 6401 4 1',
      'pass 1300',
    ]).at(-1)!;
    expect(plain(sent)).toEqual([
      withCheck(
        'sample boot=1 sequence=0 ticks=1000 resent=no inputs=0000 1=5960@2500!o 2=-!r 3=5960@2500!c 4=-!r 5=-!c 7=-99999@2500 8=0@2500',
      ),
    ]);
  });

  it('leaves out a converter that lost its settings, and has it back in the next sample', () => {
    const sent = tell(made.folder, ['start', 'pass 1300', 'dip 1', 'pass 2000']).at(-1)!;
    expect(samples(sent).map(({ values }) => values.map(({ channel }) => channel).includes(2))).toEqual([false, true]);
  });

  it('waits out a bouncing contact', () => {
    const told = ['start', 'pass 900', 'inputs 1', 'pass 10', 'inputs 0', 'pass 300', 'inputs 1', 'pass 1000'];
    const sent = tell(made.folder, told);
    expect(sent.flatMap(samples).map(({ inputs }) => inputs)).toEqual([0, 1]);
  });

  it('lets permission fall without a heartbeat and shows fault on a lamp that is not off', () => {
    const told = [
      'start',
      command({ kind: 'lamp', command: 1, state: 'on' }),
      command({ kind: 'permission', command: 2, state: 'given' }),
      'pass 10',
      'outputs',
      'pass 4980',
      'outputs',
      'pass 20',
      'outputs',
      'pass 250',
      'outputs',
    ];
    const sent = tell(made.folder, told);
    expect([sent[4], sent[6], sent[8]!.slice(1), sent[10]!.slice(1)]).toEqual(['101', '101', '00', '00']);
    expect(sent[8]![0]).not.toBe(sent[10]![0]);
  });

  it('counts its starts and keeps its settings, and does not trust a memory that is not whole', () => {
    const sent = tell(made.folder, [
      'forget',
      'start',
      'settings PB-0031 500 3 KJNKKKKK 1 0',
      'start',
      'settings bad/name 500 3 KJNKKKKK 1 0',
      'start',
    ]).map((each) => unhex(each).trim().replace(/ ~.*/, ''));
    expect(sent[1]).toContain('board=unnamed firmware=reference-2 simulated=no boot=1 ');
    expect(sent[3]).toMatch(/board=PB-0031 .* boot=2 .* period=500 .*channels=1:voltage:K,2:voltage:J,3:voltage:N$/);
    expect(sent[5]).toContain('board=unnamed firmware=reference-2 simulated=no boot=3 ');
  });
  it('prints for a programmer the settings that the simulator gives its chip', () => {
    const words = ['PB-0042', '1000', 'KKKKJJ', '50'];
    const printed = execFileSync(join(made.folder, 'settings'), words, { encoding: 'latin1' });
    const records = [...printed.matchAll(/^:10(....)00(.{32})..$/gm)];
    const bytes = Buffer.from(records.map(([, , data]) => data).join(''), 'hex');
    const memory = settingsMemory({
      identity: 'PB-0042',
      periodMilliseconds: 1000,
      thermocouples: ['K', 'K', 'K', 'K', 'J', 'J'],
      mainsHertz: 50,
      simulated: false,
    });
    expect(bytes.toString('hex')).toBe(Buffer.from(memory.subarray(0, 64)).toString('hex'));
    // Each with one word mistyped; 66536 is 1000 in 16 bits.
    for (const words of [
      'PB/42 1000 K 50',
      'PB-42 66536 K 50',
      'PB-42 1000x K 50',
      'PB-42 -1 K 50',
      'PB-42 1000 k 50',
    ]) {
      const refused = spawnSync(join(made.folder, 'settings'), words.split(' '), { encoding: 'utf8' });
      expect([words, refused.status, refused.stdout]).toEqual([words, 2, '']);
      expect(refused.stderr).toContain('A name is of');
    }
  });
});
