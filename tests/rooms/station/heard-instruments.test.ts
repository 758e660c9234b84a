/** The line of an instrument that is no board: what is heard of it, what a capture of it holds, and that it can be played again. */
import { expect, test } from 'vitest';
import { heardConnection } from '../../../server/diagnosis/heard.ts';
import { openRecord } from '../../../server/record/store.ts';
import { createFastClock } from '../../../server/station/fast-clock.ts';
import { replay } from '../../../server/station/replay.ts';
import { captureHead, captureLine, readCapture } from '../../../server/wire/capture.ts';
import { openConnection } from '../../../server/wire/connection/open-connection.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { createInProcessPort } from '../../../server/wire/in-process-port.ts';
import { checkOf } from '../../../server/wire/modbus/rtu-frame.ts';
import { connectionIn, linesFile, outsideWith, rtuFile, slaveFile } from '../../support/connection-files.ts';
import { jointOn, probeOn } from '../../support/pipeline-bench.ts';
import { temporaryFolder } from '../../support/record.ts';
import { createHandClock } from '../wire/hand-clock.ts';

const saidBy = (events: readonly WireEvent[]) =>
  events.flatMap((event) =>
    event.type === 'told' ? event.told.values.map(({ said }) => `${event.board} ${said}`) : [],
  );

/** An instrument on a cable in software, captured from its second second on. */
function bench(file: object) {
  const clock = createHandClock();
  const cable = createInProcessPort();
  const events: WireEvent[] = [];
  const connection = connectionIn(file);
  const link = openConnection({
    connection,
    outside: outsideWith({ serial: () => cable.openPort }),
    clock,
    platform: 'linux',
    onEvent: (event) => events.push(event),
  });
  const heard = heardConnection(connection, link.overheard);
  let text = '';
  const begin = (): void => {
    const began = clock.monotonic();
    text = captureHead(heard.port, clock.wall());
    for (const event of heard.bytes!.asOpened()) text += captureLine({ ...event, milliseconds: 0 });
    heard.bytes!.tap(({ kind, text: said, monotonic }) => {
      text += captureLine({ kind, text: said, milliseconds: monotonic - began });
    });
    events.length = 0;
  };
  const ended = async () => {
    await link.close();
    return { capture: readCapture(text), connection, said: saidBy(events) };
  };
  return { clock, cable, heard, begin, ended };
}

async function played({ capture, connection }: Awaited<ReturnType<ReturnType<typeof bench>['ended']>>, board: string) {
  const clock = createFastClock(Date.now() - capture.begun);
  const folder = temporaryFolder();
  const store = openRecord({ folder, begin: true, program: 'test', now: clock.wall });
  const joint = { ...jointOn('one', board), probes: [probeOn(board, 1)] };
  const done = await replay({
    ...{ capture, connection, joint, store, clock },
    ...{ name: 'x', openedBy: 'replay', rules: 'test', platform: 'linux' },
  });
  const scans = [...store.inputs('one')].flatMap((input) => (input.type === 'scan' ? [input.scan] : []));
  store.close();
  return { ...done, said: scans.map(({ values }) => `${board} ${(values[0]!.raw as { said?: string }).said}`) };
}

test('what prints lines by itself: lines as they came; played again it says the same, at the same distances', async () => {
  const { clock, cable, heard, begin, ended } = bench(linesFile({ pattern: 'T={1}' }));
  await clock.advance(10);
  cable.write('T=1');
  await clock.advance(1000);
  cable.write('48\r\nT=149\r\n');
  begin();
  for (const line of ['T=150\r\n', 'T=15', '1\r\nhum\r\nT=152\r\n']) {
    await clock.advance(500);
    cable.write(line);
  }
  cable.unplug();
  await clock.advance(4000);
  cable.plugIn();
  await clock.advance(6000);
  cable.write('cut\r\nT=153\r\n');
  await clock.advance(10);
  expect(heard.lines(0).map(({ way, text }) => `${way} ${text}`)).toEqual([
    ...['in T=148', 'in T=149', 'in T=150', 'in T=151', 'in hum', 'in T=152'],
    ...['in cut', 'in T=153'],
  ]);
  const live = await ended();
  expect(live.said).toEqual(['box 150', 'box 151', 'box 152', 'box 153']);
  const again = await played(live, 'box');
  // The first line after an opening may be cut: here it is the whole of the first that was captured.
  expect(again.said).toEqual(live.said.slice(1));
  expect(again.counts).toMatchObject({ linesGood: 3, faults: { 'line not understood': 1 } });
  expect(again.assessment.source.kind).toBe('replayed');
});

test('what has to be asked: bytes in hexadecimal digits; played again each question gets the answer that it got', async () => {
  const { clock, cable, heard, begin, ended } = bench(rtuFile([slaveFile(), slaveFile({ board: 'TC-2', address: 4 })]));
  let round = 0;
  cable.onData((text) => {
    const [address] = Buffer.from(text, 'latin1');
    if (address === 3) round += 1;
    // The second slave does not answer in the second round.
    if (address === 4 && round === 4) return;
    const body = [address!, 4, 2, (1500 + round) >> 8, (1500 + round) & 255];
    const check = checkOf(Uint8Array.from(body));
    clock.after(20 as never, () => cable.write(String.fromCharCode(...body, check & 255, check >> 8)));
  });
  await clock.advance(2500);
  begin();
  await clock.advance(6000);
  const lines = heard.lines(0).map(({ way, text }) => `${way} ${text}`);
  expect(lines).toContain('out 03 04 00 00 00 01 30 28');
  expect(lines.find((line) => line.startsWith('in 03 04 02 05 dd'))).toMatch(/^in( [0-9a-f]{2}){7}$/);
  const live = await ended();
  expect(live.said.filter((said) => said.startsWith('TC-2'))).toContainEqual(expect.stringMatching(/no answer/));
  const again = await played(live, 'TC-2');
  const same = live.said.filter((said) => said.startsWith('TC-2'));
  expect(again.said.slice(0, same.length)).toEqual(same);
});
