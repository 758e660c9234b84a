/**
 * A frame becomes the one line that PROTOCOL.md gives it, without its LF. Promise: what comes out, decode
 * takes back as the same frame. A frame that the wire cannot carry stops the program, since only a fault
 * in our own code can ask for it.
 */
import { revision } from './bounds.ts';
import { withCheck } from './check.ts';
import { decode } from './decode.ts';
import { type Frame, faults, type Hello, type Sample, type SampleValue } from './frame.ts';
import { faultLetters } from './words.ts';

/** The line of a frame. Throws RangeError if the frame lies outside the bounds of the wire. */
export const encode = (frame: Frame): string => {
  const line = withCheck(contentOf(frame));
  const back = decode(line);
  if (!back.ok) throw new RangeError(`this ${frame.kind} cannot be written on the wire: ${back.detail}`);
  return line;
};

const contentOf = (frame: Frame): string => {
  switch (frame.kind) {
    case 'hello':
      return helloContent(frame);
    case 'sample':
      return sampleContent(frame);
    case 'reply':
      return `reply command=${frame.command} outcome=${frame.outcome.replace(' ', '-')}`;
    case 'ask hello':
      return `ask-hello command=${frame.command}`;
    case 'period':
      return `period command=${frame.command} milliseconds=${frame.periodMilliseconds}`;
    case 'send again':
      return `send-again command=${frame.command} from=${frame.fromSequence}`;
    case 'lamp':
    case 'horn':
    case 'permission':
      return `${frame.kind} command=${frame.command} state=${frame.state}`;
    case 'heartbeat':
      return `heartbeat command=${frame.command}`;
  }
};

const helloContent = (hello: Hello): string => {
  if (hello.revision !== revision) throw new RangeError(`this codec writes revision ${revision} only`);
  const channels = hello.channels.map(({ channel, form, thermocouple }) => `${channel}:${form}:${thermocouple}`);
  return [
    `hello revision=${hello.revision} board=${hello.board} firmware=${hello.firmware}`,
    `simulated=${hello.simulated ? 'yes' : 'no'} boot=${hello.boot} ticks=${hello.ticks}`,
    `period=${hello.periodMilliseconds} inputs=${hello.inputs} kept=${hello.linesKept} channels=${channels.join(',')}`,
  ].join(' ');
};

const sampleContent = (sample: Sample): string =>
  [
    `sample boot=${sample.boot} sequence=${sample.sequence} ticks=${sample.ticks}`,
    `resent=${sample.resent ? 'yes' : 'no'} inputs=${sample.inputs.toString(16).padStart(4, '0')}`,
    ...sample.values.map((value) => `${value.channel}=${valueText(value)}`),
  ].join(' ');

const valueText = (value: SampleValue): string => {
  const letters = faults.filter((fault) => value.faults.includes(fault)).map((fault) => faultLetters[fault]);
  if (letters.length !== value.faults.length) throw new RangeError('a fault is named twice');
  return `${readingText(value)}${letters.length > 0 ? `!${letters.join('')}` : ''}`;
};

const readingText = ({ reading }: SampleValue): string => {
  switch (reading.form) {
    case 'voltage':
      return `${reading.deciMicrovolts}@${reading.coldJunctionCentiCelsius}`;
    case 'temperature':
      return `${reading.centiCelsius}`;
    case 'none':
      return '-';
  }
};
