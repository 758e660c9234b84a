/** Lines that a board sends: hello, sample, reply. */
import { bounds } from './bounds.ts';
import { type Fields, Refused, readIdentity, readInteger, readWord, shown } from './fields.ts';
import {
  type BoardFrame,
  type Fault,
  faults,
  type Hello,
  type HelloChannel,
  type Sample,
  type SampleValue,
  thermocoupleLetters,
} from './frame.ts';
import { faultLetters, outcomes } from './words.ts';

/** The frame of a line of this kind, or undefined if no board sends such a line. Throws Refused. */
export const decodeBoardLine = (kind: string, fields: Fields): BoardFrame | undefined => {
  switch (kind) {
    case 'hello':
      return hello(fields);
    case 'sample':
      return sample(fields);
    case 'reply': {
      const command = fields.number('command', bounds.short);
      const word = readWord('outcome', fields.next('outcome'), Object.keys(outcomes));
      return { kind: 'reply', command, outcome: outcomes[word]! };
    }
    default:
      return undefined;
  }
};

const yesNo = ['yes', 'no'] as const;

const hello = (fields: Fields): Hello => ({
  kind: 'hello',
  revision: fields.number('revision', bounds.short),
  board: readIdentity('board', fields.next('board')),
  firmware: readIdentity('firmware', fields.next('firmware')),
  simulated: fields.word('simulated', yesNo) === 'yes',
  boot: fields.number('boot', bounds.counter),
  ticks: fields.number('ticks', bounds.ticks),
  periodMilliseconds: fields.number('period', bounds.periodMilliseconds),
  inputs: fields.number('inputs', { lowest: 0, highest: bounds.inputsMaximum }),
  linesKept: fields.number('kept', bounds.short),
  channels: helloChannels(fields.next('channels')),
});

const helloChannels = (text: string): HelloChannel[] => {
  const channels = text.split(',').map((item): HelloChannel => {
    const [channel, form, thermocouple, ...more] = item.split(':');
    if (thermocouple === undefined || more.length > 0) {
      throw new Refused('malformed', `channels: "${shown(item)}" is not channel:form:thermocouple`);
    }
    return {
      channel: channelNumber(channel ?? ''),
      form: readWord('form', form ?? '', ['voltage', 'temperature'] as const),
      thermocouple: readWord('thermocouple', thermocouple, thermocoupleLetters),
    };
  });
  refuseDisorder(channels);
  return channels;
};

const sample = (fields: Fields): Sample => {
  const head = {
    kind: 'sample' as const,
    boot: fields.number('boot', bounds.counter),
    sequence: fields.number('sequence', bounds.counter),
    ticks: fields.number('ticks', bounds.ticks),
    resent: fields.word('resent', yesNo) === 'yes',
    inputs: inputBits(fields.next('inputs')),
  };
  const values: SampleValue[] = [];
  while (fields.channelFollows()) {
    const { name, value } = fields.take();
    values.push(sampleValue(channelNumber(name), value));
  }
  if (values.length === 0) throw new Refused('malformed', 'a sample carries at least one channel');
  refuseDisorder(values);
  return { ...head, values };
};

const inputBits = (text: string): number => {
  if (!/^[0-9a-f]{4}$/.test(text)) throw new Refused('malformed', `inputs: "${shown(text)}" is not four digits`);
  return Number.parseInt(text, 16);
};

const sampleValue = (channel: number, text: string): SampleValue => {
  const mark = text.indexOf('!');
  const flagged = mark < 0 ? [] : faultsOf(channel, text.slice(mark + 1));
  const reading = readingOf(channel, mark < 0 ? text : text.slice(0, mark));
  if (reading.form === 'none' && flagged.length === 0) {
    throw new Refused('malformed', `channel ${channel}: nothing measured and no fault that says why`);
  }
  return { channel, faults: flagged, reading };
};

const readingOf = (channel: number, text: string): SampleValue['reading'] => {
  if (text === '-') return { form: 'none' };
  const at = text.indexOf('@');
  const { name, cold } = names[channel]!;
  if (at < 0) return { form: 'temperature', centiCelsius: readInteger(name, text, bounds.centiCelsius) };
  return {
    form: 'voltage',
    deciMicrovolts: readInteger(name, text.slice(0, at), bounds.deciMicrovolts),
    coldJunctionCentiCelsius: readInteger(cold, text.slice(at + 1), bounds.coldJunctionCentiCelsius),
  };
};

/** Made once, for what is said of a number that does not fit. */
const names = Array.from({ length: bounds.channelsMaximum + 1 }, (_, channel) => ({
  name: `channel ${channel}`,
  cold: `channel ${channel} cold junction`,
}));

/** Each letter once and in the stated order, so that a set of faults is written in one way only. */
const faultsOf = (channel: number, letters: string): Fault[] => {
  const flagged = faults.filter((fault) => letters.includes(faultLetters[fault]));
  if (letters === '' || flagged.map((fault) => faultLetters[fault]).join('') !== letters) {
    throw new Refused('malformed', `channel ${channel}: "${shown(letters)}" are not fault letters in their order`);
  }
  return flagged;
};

const channelNumber = (text: string): number =>
  readInteger('channel', text, { lowest: 1, highest: bounds.channelsMaximum });

const refuseDisorder = (items: readonly { readonly channel: number }[]): void => {
  for (let index = 1; index < items.length; index += 1) {
    const [before, item] = [items[index - 1]!.channel, items[index]!.channel];
    if (before >= item) throw new Refused('malformed', `channel ${item} stands behind channel ${before}`);
  }
};
