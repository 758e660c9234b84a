/** Which registers of a slave are asked for together, and what their words mean. Pure. */
import { limits } from '../../measure/limits.ts';
import type { DeciMicrovolt, MilliCelsius } from '../../measure/quantity.ts';
import { type RegisterNumber, type Slave, type SlaveChannel, wordsOf } from '../../weld/connection/modbus.ts';
import type { ToldValue } from '../../weld/told.ts';
import { toCelsius } from '../log-units.ts';
import type { Question } from './question.ts';

/** Words by register as on the wire; one that could not be read holds why. */
export type Words = ReadonlyMap<number, number | string>;

/** As few questions as reach every register that is needed, so that what belongs together is of one moment. */
export const questionsOf = (slave: Slave): readonly Question[] => {
  const needed = [...new Set(slave.channels.flatMap((channel) => registersOf(slave, channel)))].toSorted(
    (a, b) => a - b,
  );
  const questions: Question[] = [];
  const code = slave.registers === 'holding' ? 3 : 4;
  for (const register of needed) {
    const last = questions.at(-1);
    const count = last === undefined ? 0 : register - last.register + 1;
    const follows = last !== undefined && count <= limits.registersAsked;
    if (follows && (slave.gaps !== 'leave out' || count === last.count + 1))
      questions[questions.length - 1] = { ...last, count };
    else questions.push({ address: slave.address, function: code, register, count: 1 });
  }
  return questions;
};

const registersOf = (slave: Slave, channel: SlaveChannel): number[] => {
  const junction = junctionOf(slave, channel);
  return [channel, ...(junction === undefined ? [] : [junction])]
    .flatMap(({ register, number }) => Array.from({ length: wordsOf(number) }, (_, index) => register + index))
    .concat(channel.status === undefined ? [] : [channel.status.register])
    .map((register) => register - slave.firstRegister);
};

const junctionOf = (slave: Slave, channel: SlaveChannel) =>
  channel.unit === 'microvolts' ? (channel.coldJunction ?? slave.coldJunction) : undefined;

export const toldBySlave = (slave: Slave, words: Words): readonly ToldValue[] =>
  slave.channels.map((channel) => toldBy(slave, channel, words));

function toldBy(slave: Slave, channel: SlaveChannel, words: Words): ToldValue {
  const { channel: at, faults, unit, status } = channel;
  const raw = rawOf(slave, channel, words);
  const junction = junctionOf(slave, channel);
  const cold = junction === undefined ? undefined : rawOf(slave, junction, words);
  const flags = status === undefined ? undefined : words.get(status.register - slave.firstRegister);
  for (const each of [raw, cold, flags]) {
    if (typeof each === 'string') return { channel: at, said: each, fault: 'no reading' };
  }
  const bytes = raw as Uint8Array;
  const said = [hex(bytes), ...(cold === undefined ? [] : [`cold ${hex(cold as Uint8Array)}`])]
    .concat(flags === undefined ? [] : [`status ${(flags as number).toString(16).toUpperCase().padStart(4, '0')}`])
    .join(' ');
  const flagged = status?.bits.find(({ bit }) => ((flags as number) >>> bit) & 1);
  if (flagged !== undefined) return { channel: at, said, fault: flagged.means };
  const marked = faults?.find((fault) => fault.raw === hex(bytes));
  if (marked !== undefined) return { channel: at, said, fault: marked.means };
  const value = numberOf(channel, bytes);
  if (value === undefined) return { channel: at, said, fault: 'no reading' };
  const beyond = faults?.find(
    ({ above, below }) => (above !== undefined && value > above) || (below !== undefined && value < below),
  );
  if (beyond !== undefined) return { channel: at, said, fault: beyond.means };
  if (unit !== 'microvolts') return temperature(at, said, toCelsius(value, unit));
  const terminals = numberOf(junction!, cold as Uint8Array);
  if (terminals === undefined) return { channel: at, said, fault: 'cold junction out of range' };
  return voltage(at, said, value, toCelsius(terminals, junction!.unit as 'C' | 'F' | 'K'));
}

const temperature = (channel: number, said: string, celsius: number): ToldValue => {
  const reported = whole(celsius * 1000);
  return reported === undefined
    ? { channel, said, fault: 'out of range' }
    : { channel, said, reported: reported as MilliCelsius };
};

const voltage = (channel: number, said: string, microvolts: number, celsius: number): ToldValue => {
  const [volts, cold] = [whole(microvolts * 10), whole(celsius * 1000)];
  if (cold === undefined) return { channel, said, fault: 'cold junction out of range' };
  return volts === undefined
    ? { channel, said, fault: 'out of range' }
    : { channel, said, deciMicrovolts: volts as DeciMicrovolt, coldJunction: cold as MilliCelsius };
};

/** Whole, and no minus zero; undefined beyond what any instrument can mean. */
const whole = (value: number): number | undefined => {
  const rounded = Math.round(value) + 0;
  return Number.isFinite(rounded) && Math.abs(rounded) < 1e9 ? rounded : undefined;
};

/** The bytes of the number with the highest first, or why they could not be read. */
function rawOf(
  { firstRegister }: Slave,
  { register, number, words: order, bytes: swap }: RegisterNumber,
  words: Words,
): Uint8Array | string {
  const each = Array.from({ length: wordsOf(number) }, (_, index) => words.get(register - firstRegister + index));
  const bytes: number[] = [];
  for (const word of order === 'low first' ? each.toReversed() : each) {
    if (word === undefined) return 'not read';
    if (typeof word === 'string') return word;
    bytes.push(...(swap === 'low first' ? [word & 255, word >>> 8] : [word >>> 8, word & 255]));
  }
  return Uint8Array.from(bytes);
}

/** Scaled, in its unit; undefined for a float that is no number. */
function numberOf({ number, scale, offset }: RegisterNumber, bytes: Uint8Array): number | undefined {
  const view = new DataView(bytes.buffer);
  const plain =
    number === 'int16'
      ? view.getInt16(0)
      : number === 'uint16'
        ? view.getUint16(0)
        : number === 'int32'
          ? view.getInt32(0)
          : number === 'uint32'
            ? view.getUint32(0)
            : view.getFloat32(0);
  return Number.isFinite(plain) ? plain * scale + (offset ?? 0) : undefined;
}

const hex = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');
