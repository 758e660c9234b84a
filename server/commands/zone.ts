/** The zone of times and days that a command is asked for. */
import { refuse } from './arguments.ts';
import type { Command, Terminal } from './command.ts';

/** Whether this computer knows the time zone of that name. */
const isZone = (zone: string): boolean => {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
};

/** The zone that was asked for, or this computer's; the exit status once the terminal has been told that there is none of that name. */
export function zoneAsked(
  command: Pick<Command, 'name'>,
  given: string | boolean | undefined,
  terminal: Terminal,
): string | number {
  if (given === undefined) return Intl.DateTimeFormat().resolvedOptions().timeZone;
  return typeof given === 'string' && isZone(given)
    ? given
    : refuse(command, `--zone ${given}: not a time zone known here; as Europe/Oslo, or UTC`, terminal);
}
