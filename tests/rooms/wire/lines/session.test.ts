/** An instrument that prints lines, at the far end of a cable in software, on a clock that the test moves. */
import { afterEach, expect, test } from 'vitest';
import { type ConnectionLink, openConnection } from '../../../../server/wire/connection/open-connection.ts';
import type { WireEvent } from '../../../../server/wire/event.ts';
import { createInProcessPort } from '../../../../server/wire/in-process-port.ts';
import { connectionIn, linesFile, outsideWith } from '../../../support/connection-files.ts';
import { createHandClock } from '../hand-clock.ts';

let link: ConnectionLink | undefined;
afterEach(() => link?.close());

const bench = (own: object) => {
  const clock = createHandClock();
  const cable = createInProcessPort();
  const events: WireEvent[] = [];
  link = openConnection({
    connection: connectionIn(linesFile({ pattern: 'T={1}', ...own })),
    outside: outsideWith({ serial: () => cable.openPort }),
    clock,
    platform: 'linux',
    onEvent: (event) => events.push(event),
  });
  const values = () => events.flatMap((event) => (event.type === 'told' ? event.told.values : []));
  const states = () => events.flatMap((event) => (event.type === 'link' ? [`${event.state}: ${event.cause}`] : []));
  return { clock, cable, events, values, states, link };
};

test('what streams is read from its first whole line; silence is a lost link, and it is opened again', async () => {
  const { clock, cable, values, states, link } = bench({});
  await clock.advance(10);
  cable.write('=99\r\nT=150.1\r\nT=15');
  await clock.advance(500);
  cable.write('0.2\r\nhello\r\n');
  await clock.advance(100);
  expect(values()).toEqual([
    { channel: 1, said: '150.1', reported: 150_100 },
    { channel: 1, said: '150.2', reported: 150_200 },
  ]);
  expect(link.counts('box')).toMatchObject({
    good: 2,
    errors: [{ what: 'line not understood', times: 1 }],
    last: expect.stringContaining('"hello"'),
  });
  // At the moment, not at the next look of a period.
  await clock.advance(2899);
  expect(states().at(-1)).toBe('open: board box answers');
  await clock.advance(1);
  expect(states().at(-1)).toBe('lost: no reading for 3 s');
  await clock.advance(2000);
  cable.write('5\nT=151\n');
  await clock.advance(10);
  expect(states().at(-1)).toBe('open: board box answers');
  expect(values().at(-1)).toMatchObject({ said: '151' });
});

test('where it has to be asked, what it does not answer is told as no reading', async () => {
  const { clock, cable, values } = bench({ query: 'R?\r', begin: 'REMOTE\r' });
  const asked: string[] = [];
  let answers = true;
  cable.onData((text) => {
    asked.push(text);
    if (text === 'R?\r' && answers) cable.write('T=150\r\n');
  });
  await clock.advance(2500);
  expect(asked).toEqual(['REMOTE\r', 'R?\r', 'R?\r', 'R?\r']);
  expect(values().map((value) => value.said)).toEqual(['150', '150']);
  answers = false;
  await clock.advance(2000);
  expect(values().at(-1)).toEqual({ channel: 1, said: 'no answer', fault: 'no reading' });
});

test('a port from which nothing comes, or only what nobody understands, says so once', async () => {
  const { clock, cable, states } = bench({});
  await clock.advance(3500);
  expect(states().at(-1)).toBe('refused: nothing comes from this port');
  for (let second = 0; second < 8; second += 1) {
    cable.write('x\nV=1\n');
    await clock.advance(1000);
  }
  expect(
    states()
      .filter((state) => state.startsWith('refused'))
      .at(-1),
  ).toContain('not written like the pattern: "V=1"');
});

test('what went wrong more than an hour ago is counted, and is not what is wrong now', async () => {
  const { clock, cable, link } = bench({});
  await clock.advance(10);
  cable.write('\nhello\nhello\n');
  await clock.advance(10);
  expect(link.lately('box')).toMatchObject({ linesGood: 0, linesBad: 2 });
  // Within the silence that is allowed, so that the port stays open.
  for (let seconds = 0; seconds < 2 * 3600; seconds += 2) {
    cable.write('T=150\n');
    await clock.advance(2000);
  }
  expect(link.counts('box').errors).toEqual([{ what: 'line not understood', times: 2 }]);
  expect(link.lately('box').linesBad).toBe(0);
  expect(link.lately('box').linesGood).toBeGreaterThan(1700);
});

test('what comes without the end of a line is told as that, and not as nothing', async () => {
  const { clock, cable, states } = bench({});
  await clock.advance(10);
  cable.write('T=150.1\rT=150.2\r');
  await clock.advance(3500);
  expect(states().at(-1)).toBe(
    'refused: 16 bytes came and no end of a line (LF); its lines seem to end with CR, which has to be said (lineEnd)',
  );
  const garbled = bench({ query: 'R?' });
  await garbled.clock.advance(10);
  garbled.cable.write('\u0086\u00f8\u001c');
  await garbled.clock.advance(3500);
  expect(garbled.states().at(-1)).toContain('no end of a line (LF); speed, parity or the end of its lines');
  await garbled.link.close();
});

test('why a place holds no temperature is told by name, and a fault that the connection names is none of that', async () => {
  const counted = async (text: string, own: object = {}) => {
    const { clock, cable, link } = bench(own);
    await clock.advance(10);
    cable.write(`\n${text}\n`);
    await clock.advance(10);
    const { good, errors, last } = link.counts('box');
    await link.close();
    return { good, errors, last };
  };
  const one = [{ what: 'no temperature', times: 1 }];
  expect(await counted('T=OL')).toEqual({
    good: 1,
    errors: one,
    last: 'channel 1: "OL" is no number, and no fault that the connection names',
  });
  expect(await counted('T=150 F')).toMatchObject({
    errors: one,
    last: expect.stringContaining('is in degrees Fahrenheit, by the connection it would be in degrees Celsius'),
  });
  expect(await counted('T=150', { unit: 'beside each value' })).toMatchObject({
    errors: one,
    last: expect.stringContaining('no unit beside it'),
  });
  for (const quiet of ['T=150', 'T=---', 'T='])
    expect(await counted(quiet)).toEqual({ good: 1, errors: [], last: undefined });
  expect(await counted('T=OL', { faults: [{ text: 'ol', means: 'open' }] })).toMatchObject({ errors: [] });
});
