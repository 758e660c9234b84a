/** The program: finds the command, gives it the terminal, and ends with its status. */
import { type Command, exitStatus, type Terminal } from './commands/command.ts';
import { commands } from './commands/list.ts';

const terminal: Terminal = {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
};

const [name, ...args] = process.argv.slice(2);
process.exitCode = await main(name, args);

async function main(name: string | undefined, args: readonly string[]): Promise<number> {
  const command = commands.find((each) => each.name === name);
  if (command !== undefined) return command.run(args, terminal);
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    terminal.out(list(commands));
    return name === undefined ? exitStatus.failed : exitStatus.done;
  }
  terminal.err(`There is no command "${name}".`);
  terminal.err(list(commands));
  return exitStatus.failed;
}

function list(all: readonly Command[]): string {
  const rows = all.map(({ name, summary }) => `  ${name.padEnd(12)} ${summary}`);
  return ['Usage: npm run -s ledger -- COMMAND [...]', '', ...rows, '', 'Each command tells more with --help.'].join(
    '\n',
  );
}
