import { expect, test } from 'vitest';
import { readConnection } from '../../../../server/weld/connection/connection.ts';
import type { ModbusRtu, Slave } from '../../../../server/weld/connection/modbus.ts';
import { questionsOf, toldBySlave } from '../../../../server/wire/modbus/registers.ts';
import { allowedIn, connectionIn, register, rtuFile, slaveFile } from '../../../support/connection-files.ts';

const slaveWith = (channels: readonly object[], rest: object = {}): Slave =>
  connectionIn<ModbusRtu>(rtuFile([slaveFile({ channels, ...rest })])).slaves[0]!;
const channel = register;
const told = (slave: Slave, ...words: (number | string)[]) =>
  toldBySlave(slave, new Map(words.map((word, index) => [index, word])));

test.each([
  ['tenths, below zero too', {}, [0xfff6], { said: 'FFF6', reported: -1000 }],
  ['without a sign', { number: 'uint16', scale: 1 }, [0x0200], { said: '0200', reported: 512_000 }],
  ['Fahrenheit', { unit: 'F' }, [0x0834], { said: '0834', reported: 98_889 }],
  ['kelvin', { unit: 'K' }, [0x0bb8], { said: '0BB8', reported: 26_850 }],
  ['an offset', { offset: -200 }, [2500], { said: '09C4', reported: 50_000 }],
  [
    'two registers, high first',
    { number: 'int32', words: 'high first', scale: 0.001 },
    [0x0002, 0x49f0],
    { said: '000249F0', reported: 150_000 },
  ],
  [
    'two registers, low first',
    { number: 'int32', words: 'low first', scale: 0.001 },
    [0x49f0, 0x0002],
    { said: '000249F0', reported: 150_000 },
  ],
  [
    'a float, low word first',
    { number: 'float32', words: 'low first', scale: 1 },
    [0x2000, 0x4316],
    { said: '43162000', reported: 150_125 },
  ],
  [
    'a float with its bytes turned too',
    { number: 'float32', words: 'low first', bytes: 'low first', scale: 1 },
    [0x0020, 0x1643],
    { said: '43162000', reported: 150_125 },
  ],
  [
    'a float that is no number',
    { number: 'float32', words: 'high first', scale: 1 },
    [0x7fc0, 0],
    { said: '7FC00000', fault: 'no reading' },
  ],
  ['a marked value', { faults: [{ raw: '7FFF', means: 'open' }] }, [0x7fff], { said: '7FFF', fault: 'open' }],
  ['a value beyond', { faults: [{ above: 1370, means: 'open' }] }, [13_720], { said: '3598', fault: 'open' }],
  [
    'at the bound it is none',
    { faults: [{ above: 1370, means: 'open' }] },
    [13_700],
    { said: '3584', reported: 1_370_000 },
  ],
  [
    'a bit of a status register',
    { status: { register: 2, bits: [{ bit: 3, means: 'short to ground' }] } },
    [235, 0x0008],
    { said: '00EB status 0008', fault: 'short to ground' },
  ],
  [
    'another bit means nothing',
    { status: { register: 2, bits: [{ bit: 3, means: 'short to ground' }] } },
    [235, 0x0010],
    { said: '00EB status 0010', reported: 23_500 },
  ],
  ['no answer', {}, ['no answer'], { said: 'no answer', fault: 'no reading' }],
])('%s', (_what, own, words, expected) => {
  expect(told(slaveWith([{ ...channel, ...own }]), ...words)).toEqual([{ channel: 1, ...expected }]);
});

test('a voltage comes with its cold junction, and is nothing without it', () => {
  const slave = slaveWith([{ ...channel, number: 'int16', scale: 1, unit: 'microvolts' }], {
    coldJunction: { register: 9, number: 'int16', scale: 0.01, unit: 'C' },
  });
  const words = new Map<number, number | string>([
    [0, 4096],
    [8, 2350],
  ]);
  expect(toldBySlave(slave, words)).toEqual([
    { channel: 1, said: '1000 cold 092E', deciMicrovolts: 40_960, coldJunction: 23_500 },
  ]);
  words.set(8, 'no answer');
  expect(toldBySlave(slave, words)).toEqual([{ channel: 1, said: 'no answer', fault: 'no reading' }]);
});

test('as few questions as reach all registers; with gaps left out none reads what nobody needs', () => {
  const channels = [1, 2, 9, 200].map((register, index) => ({ ...channel, channel: index + 1, register }));
  const ask = (slave: Slave) => questionsOf(slave).map(({ register, count }) => [register, count]);
  expect(ask(slaveWith(channels))).toEqual([
    [0, 9],
    [199, 1],
  ]);
  expect(ask(slaveWith(channels, { gaps: 'leave out' }))).toEqual([
    [0, 2],
    [8, 1],
    [199, 1],
  ]);
});

const slave = slaveFile();
test.each([
  [
    'two registers need their order',
    { ...slave, channels: [{ ...channel, number: 'float32' }] },
    'slaves.0.channels.0.words',
    /high first.*two registers/,
  ],
  [
    'register 0 in a manual that counts from 1',
    { ...slave, channels: [{ ...channel, register: 0 }] },
    'slaves.0.channels.0.register',
    /at least 1/,
  ],
  [
    'a voltage without cold junction',
    { ...slave, channels: [{ ...channel, unit: 'microvolts' }] },
    'slaves.0.channels.0.coldJunction',
    /without it a voltage/,
  ],
  [
    'a mark of the wrong length',
    { ...slave, channels: [{ ...channel, faults: [{ raw: '7FFF8000', means: 'open' }] }] },
    'slaves.0.channels.0.faults.0.raw',
    /4 hexadecimal/,
  ],
  ['a mistyped field', { ...slave, adress: 3 }, 'slaves.0.adress', /perhaps "address"/],
  [
    'a scale of nothing',
    { ...slave, channels: [{ ...channel, scale: 0 }] },
    'slaves.0.channels.0.scale',
    /every value/,
  ],
])('%s is told with its place', (_what, wrong, field, allowed) => {
  expect(allowedIn(rtuFile([wrong]), field)).toMatch(allowed);
});

test('two slaves of one address, and a kind that is none', () => {
  const twice = readConnection(rtuFile([slave, { ...slave, board: 'TC-2' }]));
  expect(twice).toMatchObject({ problems: [{ field: 'slaves.1.address' }] });
  expect(readConnection(rtuFile([slave], { kind: 'modbus' }))).toMatchObject({
    problems: [{ field: 'kind', allowed: expect.stringContaining('modbus rtu') }],
  });
  expect(readConnection('{"format":')).toMatchObject({ problems: [{ field: '(whole)' }] });
});
