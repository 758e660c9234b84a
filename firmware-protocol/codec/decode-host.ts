/** Lines that the host sends: its commands. */
import { bounds } from './bounds.ts';
import type { Fields } from './fields.ts';
import type { HostFrame } from './frame.ts';
import { hornStates, lampStates, permissionStates } from './words.ts';

/** The frame of a line of this kind, or undefined if no host sends such a line. Throws Refused. */
export const decodeHostLine = (kind: string, fields: Fields): HostFrame | undefined => {
  const command = (): number => fields.number('command', bounds.short);
  switch (kind) {
    case 'ask-hello':
      return { kind: 'ask hello', command: command() };
    case 'period':
      return {
        kind: 'period',
        command: command(),
        periodMilliseconds: fields.number('milliseconds', bounds.periodMilliseconds),
      };
    case 'send-again':
      return { kind: 'send again', command: command(), fromSequence: fields.number('from', bounds.counter) };
    case 'lamp':
      return { kind: 'lamp', command: command(), state: fields.word('state', lampStates) };
    case 'horn':
      return { kind: 'horn', command: command(), state: fields.word('state', hornStates) };
    case 'permission':
      return { kind: 'permission', command: command(), state: fields.word('state', permissionStates) };
    case 'heartbeat':
      return { kind: 'heartbeat', command: command() };
    default:
      return undefined;
  }
};
