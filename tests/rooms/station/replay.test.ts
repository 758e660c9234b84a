/**
 * Captures of ports, kept as tests: each goes through the same trip again and has to give what stands beside it, which
 * was checked by hand when it was kept. A new one: NAME.capture and NAME.expected.json in the folder captures.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openRecord } from '../../../server/record/store.ts';
import { createFastClock } from '../../../server/station/fast-clock.ts';
import { replay } from '../../../server/station/replay.ts';
import { CaptureProblem, captureHead, captureLine, readCapture } from '../../../server/wire/capture.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import { openLink } from '../../../server/wire/serial-link.ts';
import { everyNumberEnds } from '../../support/every-number.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { temporaryFolder } from '../../support/record.ts';
import { oneBoard } from '../wire/bench-board.ts';
import { createHandClock } from '../wire/hand-clock.ts';

const folder = join(import.meta.dirname, 'captures');
const names = readdirSync(folder).flatMap((file) => (file.endsWith('.capture') ? [file.slice(0, -8)] : []));

const played = async (text: string) => {
  const capture = readCapture(text);
  const clock = createFastClock(Date.now() - capture.begun);
  const at = join(temporaryFolder(), 'replay');
  const store = openRecord({ folder: at, begin: true, program: 'test', now: clock.wall });
  const joint = jointOn('one', 'PB-0001');
  const done = await replay({
    capture,
    name: 'x',
    joint,
    openedBy: 'replay',
    store,
    clock,
    rules: 'test',
    platform: 'linux',
  });
  const inputs = [...store.inputs('one')];
  store.close();
  return { ...done, inputs };
};

describe('captures that are kept', () => {
  it.each(names)('%s gives what it gave', async (name) => {
    const text = readFileSync(join(folder, `${name}.capture`), 'latin1');
    const expected = JSON.parse(readFileSync(join(folder, `${name}.expected.json`), 'utf8')) as object;
    const { boards, samples, late, holes, counts, link, assessment, inputs } = await played(text);
    const { linesGood, linesBad, linesMissing, faults, losses } = counts;
    const states = link.map(({ state, cause }) => `${state}: ${cause}`);
    const seen = { boards, samples, late, holes, linesGood, linesBad, linesMissing, faults, losses, states };
    expect(JSON.parse(JSON.stringify(seen))).toEqual(expected);
    const scans = inputs.flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
    everyNumberEnds(scans, holes);
    expect(scans).toHaveLength(samples);
    // Played by an emulator when it was captured, which outranks that it is played again.
    expect(assessment.source.kind).toBe('simulated');
    expect(inputs[0]).toMatchObject({ event: { kind: 'opened', source: { kind: 'replayed' } } });
  });

  it('there is one', () => expect(names.length).toBeGreaterThan(0));
});

describe('a capture', () => {
  it('holds every byte and every time, and gives them back', () => {
    const every = Array.from({ length: 256 }, (_, code) => String.fromCharCode(code)).join('');
    const events = [
      { kind: 'open', milliseconds: 0, text: '115200' },
      { kind: 'in', milliseconds: 7, text: every },
      { kind: 'out', milliseconds: 9, text: '\\n\\\\x00' },
      { kind: 'lost', milliseconds: 12, text: 'the cable is out' },
    ] as const;
    const text = captureHead('/dev/ttyUSB0', 1_700_000_000_000) + events.map(captureLine).join('');
    expect(text).toMatch(/^[\x20-\x7e\n]*$/);
    expect(readCapture(text)).toEqual({ port: '/dev/ttyUSB0', begun: 1_700_000_000_000, events });
    // Whoever wrote it may have been killed in the middle of a line.
    expect(readCapture(text.slice(0, -5)).events).toEqual(events.slice(0, -1));
  });

  it.each([
    ['', /line 1/],
    ['capture 1\nbegun 5\n', /line 2/],
    ['capture 1\nport x\nbegun soon\n', /line 3/],
    ['capture 1\nport x\nbegun 5\n9 in a\n3 in b\n', /line 5/],
    ['capture 1\nport x\nbegun 5\n9 in \\q\n', /line 4 holds a backslash/],
  ])('that is none is refused with its line: %j', (text, why) => {
    expect(() => readCapture(text)).toThrow(CaptureProblem);
    expect(() => readCapture(text)).toThrow(why);
  });

  it('of a running link, played again, gives the same samples and holes', async () => {
    const clock = createHandClock();
    const board = oneBoard();
    const cable = createInProcessPort();
    cable.onData((bytes) => board.receive(bytes));
    const live: string[] = [];
    const link = openLink({
      path: 'cable',
      platform: 'linux',
      clock,
      openPort: cable.openPort,
      onEvent: (event) => {
        if (event.type === 'sample') live.push(`${event.sample.boot}.${event.sample.sequence} ${event.sample.resent}`);
        if (event.type === 'hole') live.push(`hole ${event.hole.from} ${event.hole.fate}`);
      },
    });
    let text = captureHead('cable', clock.wall());
    link.tap(({ kind, monotonic, text: said }) => {
      text += captureLine({ kind, milliseconds: monotonic, text: said });
    });
    const run = async (milliseconds: number): Promise<void> => {
      for (let passed = 0; passed < milliseconds; passed += 50) {
        await clock.advance(50);
        cable.write(board.advance(50));
      }
      await clock.advance(0);
    };
    await run(5000);
    board.inject({ kind: 'garbage', bytes: 300 });
    board.inject({ kind: 'cut line' });
    await run(6000);
    cable.unplug();
    await run(7000);
    cable.plugIn();
    await run(6000);
    board.reboot();
    await run(6000);
    await link.close();
    const { inputs } = await played(text);
    const again = inputs.flatMap((input) => {
      if (input.type === 'scan') return [`${input.scan.boot}.${input.scan.sequence} ${input.scan.late}`];
      return input.type === 'station' && input.event.kind === 'hole'
        ? [`hole ${input.event.from} ${input.event.fate}`]
        : [];
    });
    expect(again).toEqual(live);
  });
});
