/** Arguments of a command. An unknown option is an error that shows where help is, never ignored. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { type Command, exitStatus, type Terminal } from './command.ts';

type Options = NonNullable<ParseArgsConfig['options']>;
type Values<O extends Options> = ReturnType<typeof parseArgs<{ options: O; allowPositionals: true; strict: true }>>;

/** What was asked, or the exit status where that is all (help was printed, or the arguments are wrong). */
export function readArguments<O extends Options>(
  command: Pick<Command, 'name' | 'help'>,
  options: O,
  args: readonly string[],
  terminal: Terminal,
): Values<O> | number {
  // Help is answered whatever stands beside it.
  if (args.includes('--help') || args.includes('-h')) {
    terminal.out(command.help);
    return exitStatus.done;
  }
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true }) as Values<O>;
  } catch (error) {
    return refuse(command, (error as Error).message, terminal);
  }
}

/** Says what is wrong with the arguments and where help is. */
export function refuse(command: Pick<Command, 'name'>, message: string, terminal: Terminal): number {
  terminal.err(`${command.name}: ${message}`);
  terminal.err(`See: npm run -s ledger -- ${command.name} --help`);
  return exitStatus.failed;
}
