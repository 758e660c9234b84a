/** What a person is told who looks for what is wrong with a link: by page, by command, and by what is kept of it. */
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { doctorOf } from '../../../server/commands/doctor.ts';
import { createCaptures } from '../../../server/diagnosis/captures.ts';
import { heardBoard } from '../../../server/diagnosis/heard.ts';
import { plainWords } from '../../../server/diagnosis/plain-words.ts';
import { rightsProblem, rightsText } from '../../../server/diagnosis/rights.ts';
import { linksView } from '../../../server/diagnosis/view.ts';
import { limits } from '../../../server/measure/limits.ts';
import { openRecord } from '../../../server/record/store.ts';
import type { LinksView } from '../../../server/screen/links-view.ts';
import { createFastClock } from '../../../server/station/fast-clock.ts';
import { replay } from '../../../server/station/replay.ts';
import { type Connection, connectedBy } from '../../../server/weld/connection/connection.ts';
import { readCapture } from '../../../server/wire/capture.ts';
import type { ReadCounts } from '../../../server/wire/connection/open-connection.ts';
import { createLately } from '../../../server/wire/lately.ts';
import type { Link } from '../../../server/wire/serial-link.ts';
import { connectionIn, networkLinesFile, rtuFile, slaveFile } from '../../support/connection-files.ts';
import { jointOn } from '../../support/pipeline-bench.ts';
import { temporaryFolder } from '../../support/record.ts';
import { oneBoard, setUp } from '../wire/bench-board.ts';

const counts = { linesGood: 1000, linesBad: 0, linesMissing: 0 };
const open = { state: 'open', cause: 'board PB-0001 answers', leftAlone: false, counts } as const;

describe('the words', () => {
  it('are none where all is well', () => expect(plainWords(open)).toEqual([]));

  it.each([
    [{ ...open, counts: { ...counts, linesBad: 30 } }, /30 of 1030 lines came damaged/],
    [{ ...open, counts: { ...counts, linesMissing: 1 } }, /^1 reading has not come/],
    [{ ...open, counts: { ...counts, losses: 3 } }, /lost 3 times.*ferrites/],
    [{ ...open, counts: { ...counts, faults: { 'our own words': 1 } } }, /joins sending and receiving/],
    [{ ...open, state: 'lost', cause: 'the cable is out', advice: 'Plug it in.' }, /^The cable is out\. Plug it in\./],
    [{ ...open, state: 'lost', cause: 'writing failed: EIO' }, /^Writing failed: EIO\. Check the cable/],
    [
      { ...open, state: 'waiting for hello', cause: 'the port is open' },
      /^The port is open\. The board is asked who it is/,
    ],
    [{ ...open, state: 'refused', cause: 'another device', leftAlone: true }, /Another device/],
  ] as const)('say what is wrong and what to do: %#', (facts, said) => {
    expect(plainWords(facts).join('\n')).toMatch(said);
  });

  it('are of the last hour where the link counts it: what was mended long ago is not wrong now', () => {
    const before = { ...counts, linesBad: 500, losses: 9, linesMissing: 40, faults: { 'our own words': 7 } };
    const lately = { linesGood: 3600, linesBad: 0, linesMissing: 0, losses: 0, echoes: 0 };
    expect(plainWords({ ...open, counts: { ...before, lately } })).toEqual([]);
    const again = { ...lately, linesGood: 90, linesBad: 10, losses: 3, linesMissing: 2, echoes: 1 };
    expect(plainWords({ ...open, counts: { ...before, lately: again } }).join('\n')).toMatch(
      /lost 3 times in the last hour[\s\S]*comes back[\s\S]*10 of 100 lines[\s\S]*2 readings have not come in the last hour/,
    );
  });

  it('tell of no damaged board where none ever spoke, or where another device is left alone', () => {
    const noise = { linesGood: 0, linesBad: 40, linesMissing: 0, losses: 0 };
    const alone = { ...open, state: 'refused', cause: 'another device speaks here', leftAlone: true } as const;
    expect(plainWords({ ...alone, counts: { ...counts, ...noise, linesGood: 1000 } })).toHaveLength(2);
    expect(plainWords({ ...open, state: 'waiting for hello', counts: noise })).toHaveLength(1);
  });
});

describe('what a link counted in the last hour', () => {
  const none = { linesGood: 0, linesBad: 0, linesMissing: 0, losses: 0, echoes: 0 };

  it('is the whole at first, then leaves out what is older, to a minute', () => {
    const minute = 60_000;
    let now = 0;
    let counts = none;
    const lately = createLately({ ...createFastClock(0), monotonic: () => now }, () => counts);
    // A line each second for two hours; those of the first ten minutes are damaged, and one more at the end.
    for (let second = 0; second < 7200; second += 1) {
      now = second * 1000;
      lately.note();
      const bad = second < 600 || second === 7199;
      counts = { ...counts, linesGood: counts.linesGood + (bad ? 0 : 1), linesBad: counts.linesBad + (bad ? 1 : 0) };
      if (second === 1800) expect(lately.of()).toEqual(counts);
    }
    now = 120 * minute;
    const { linesGood, linesBad } = lately.of();
    expect(linesBad).toBe(1);
    expect(linesGood).toBeGreaterThanOrEqual(3600 - 61);
    expect(linesGood).toBeLessThanOrEqual(3600);
    // Then nothing for hours; and what was missing and came since is not less than nothing.
    now = 300 * minute;
    expect(lately.of()).toEqual(none);
    counts = { ...counts, linesMissing: 5 };
    lately.note();
    counts = { ...counts, linesMissing: 0 };
    expect(lately.of().linesMissing).toBe(0);
  });

  it('is told by each link', async () => {
    const board = oneBoard();
    const bench = setUp(board);
    await bench.run(3000);
    board.inject({ kind: 'cut line' });
    await bench.run(2000);
    const { linesGood, linesBad, lately } = bench.link.counts();
    expect(linesBad).toBe(1);
    expect(lately).toEqual({ linesGood, linesBad, linesMissing: 0, losses: 0, echoes: 0 });
    await bench.link.close();
  });
});

describe('the words for an instrument that is no board', () => {
  const slave = { board: 'TC-3', address: 3 };
  const rtu = connectionIn(rtuFile([slaveFile(slave)], { port: '/dev/ttyUSB0' }));
  const tcp = connectionIn(networkLinesFile({ pattern: 'T={1}' }));
  const read = { good: 90, errors: [{ what: 'no answer', times: 12 }], last: 'no answer' };
  const rowOf = (connection: Connection, counts: ReadCounts, state: 'open' | 'lost' = 'open') => {
    const { port } = connectedBy(connection)[0]!;
    const linesBad = counts.errors.reduce((sum, { times }) => sum + times, 0);
    const link = { counts: () => ({ linesGood: counts.good, linesBad, linesMissing: 0, bytesDropped: 0 }) } as Link;
    const event = { type: 'link', port, state, cause: 'slave 3: no answer', advice: 'See that it has power.' } as never;
    return linksView({
      ...{ now: 0 as never, platform: 'linux', links: new Map([[port, link]]), events: new Map([[port, event]]) },
      ...{ heard: () => undefined, boardLink: () => undefined, board: () => undefined, claimedBy: () => undefined },
      instrument: () => ({ connection, counts }),
      listed: [{ path: '/dev/ttyUSB0', vendorId: '1a86', productId: '7523' }],
      captures: { list: () => [], running: () => undefined } as never,
    }).links[0]!;
  };

  it('name what went wrong, and promise nothing that only a board can do', () => {
    const row = rowOf(rtu, read, 'lost');
    expect(row.words).toEqual([
      'Slave 3: no answer. See that it has power.',
      'Since the start 90 were read well; besides: no answer 12. The last trouble: no answer.',
    ]);
    expect(row.faults).toEqual(read.errors);
    expect(rowOf(rtu, { good: 90, errors: [] }).words).toEqual(['Reads well.']);
  });

  it('know the adapter of a shared port, and that an address is no port', () => {
    expect(rowOf(rtu, read).hardware).toBe('USB 1a86:7523');
    expect(rowOf(tcp, read).hardware).toBe('lines of text');
  });
});

describe('rights', () => {
  it('that are missing are told with the group that has them and the command', (context) => {
    if (process.getuid?.() === 0) return context.skip('the super-user may open everything');
    const path = join(temporaryFolder(), 'tty');
    writeFileSync(path, '');
    chmodSync(path, 0o060);
    expect(rightsProblem(path, 'linux')).toContain(`${userInfo().username}"`);
  });

  it('name a group only where it may open the port, and never that of the super-user', () => {
    const held = { mode: 0o20660, gid: 20, group: 'dialout', user: 'preheat', platform: 'linux' };
    expect(rightsText(held)).toContain('"sudo usermod -aG dialout preheat"');
    for (const other of [
      { ...held, mode: 0o20600, group: 'plugdev' },
      { ...held, gid: 0, group: 'root' },
    ]) {
      expect(rightsText(other)).toMatch(/no group of users may: let a udev rule/);
      expect(rightsText(other)).not.toMatch(/-aG (plugdev|root)/);
    }
    expect(rightsText({ ...held, platform: 'darwin' })).toMatch(/of that group\.$/);
  });

  it('are no question where there is no such port, or no such rights', () => {
    expect(rightsProblem('/dev/not-there', 'linux')).toBeUndefined();
    expect(rightsProblem('COM3', 'win32')).toBeUndefined();
  });
});

describe('the command doctor', () => {
  const run = async (args: string[], view?: LinksView) => {
    const lines: string[] = [];
    const list = async () => [{ path: '/dev/null', vendorId: '1a86', productId: '7523', driver: 'ch341-uart' }];
    const command = doctorOf({ platform: 'linux', list, ask: async () => view });
    const status = await command.run(args, { out: (text) => lines.push(text), err: (text) => lines.push(text) });
    return { status, text: lines.join('\n') };
  };

  it('lists the ports and how to start with them', async () => {
    const { status, text } = await run([]);
    expect(text).toContain('/dev/null  USB 1a86:7523, driver ch341-uart');
    expect(text).toContain('--usb 1a86:7523');
    expect(text).toContain('none answers');
    expect([status, text.includes('Nothing wrong')]).toEqual([0, true]);
  });

  it('asks nobody to plug a board in that a station reads, where the system cannot tell of its port', async () => {
    const lines: string[] = [];
    const row = { port: '/dev/pts/1', board: 'PB-1', state: 'open', isWell: true, words: ['Reads well.'] } as never;
    const view: LinksView = { links: [row], unopened: [], captures: [] };
    const command = doctorOf({ platform: 'linux', list: async () => [], ask: async () => view });
    expect(await command.run([], { out: (text) => lines.push(text), err: () => {} })).toBe(0);
    expect(lines.join('\n')).not.toContain('Plug the board in');
  });

  it('says of a port that is not there, and of a link that is ill, what to do', async () => {
    const row = {
      port: 'COM3',
      state: 'lost',
      isWell: false,
      words: ['Plug it in.'],
      linesGood: 1,
      linesBad: 0,
    } as never;
    const { status, text } = await run(['/dev/ttyUSB7'], { links: [row], unopened: [], captures: [] });
    expect(text).toContain('/dev/ttyUSB7: there is no such port');
    expect(text).toContain('COM3: Plug it in.');
    expect(status).toBe(1);
    expect((await run(['--station', 'nowhere'])).status).toBe(3);
  });
});

describe('a capture of a running link', () => {
  it('is bounded, ends by itself, and can be played again from its own beginning', async () => {
    const bench = setUp(oneBoard());
    await bench.run(3000);
    const folder = join(temporaryFolder(), 'captures');
    const captures = createCaptures(folder, bench.clock, () => {});
    const name = captures.begin('/dev/tty USB0', heardBoard('/dev/tty USB0', bench.link).bytes!, 1);
    expect(captures.begin('/dev/tty USB0', heardBoard('/dev/tty USB0', bench.link).bytes!, 1)).toBe(name);
    await bench.run(5000);
    expect(captures.running('/dev/tty USB0')?.name).toBe(name);
    await bench.run(60_000);
    expect(captures.running('/dev/tty USB0')).toBeUndefined();
    expect(captures.list()).toMatchObject([{ name, isRunning: false }]);
    expect(captures.read('../secret.capture')).toBeUndefined();
    const capture = readCapture(readFileSync(join(folder, name), 'latin1'));
    const clock = createFastClock(Date.now() - capture.begun);
    const store = openRecord({ folder: join(temporaryFolder(), 'r'), begin: true, program: 'test', now: clock.wall });
    const joint = jointOn('one', 'PB-0001');
    const played = await replay({
      capture,
      name,
      joint,
      openedBy: 'x',
      store,
      clock,
      rules: 'test',
      platform: 'linux',
    });
    store.close();
    expect(played.samples).toBeGreaterThan(55);
    expect(played.counts.linesBad).toBe(0);
    await bench.link.close();
  });

  it('is one of the newest that are kept', async () => {
    const bench = setUp(oneBoard());
    const folder = join(temporaryFolder(), 'captures');
    const captures = createCaptures(folder, bench.clock, () => {});
    const first = captures.begin('A', heardBoard('A', bench.link).bytes!, 1);
    for (let count = 0; count < limits.capturesKept; count += 1) {
      captures.end('A');
      await bench.clock.advance(1000);
      captures.begin('A', heardBoard('A', bench.link).bytes!, 1);
    }
    captures.close();
    expect(captures.list()).toHaveLength(limits.capturesKept);
    expect(existsSync(join(folder, first))).toBe(false);
    await bench.link.close();
  });
});
