/**
 * The one way in: `npm start`, `npm run ledger` and `npm run build` come through here. Installs if needed, builds if
 * needed, then runs the program in this same process, so that signals, streams and the exit status are its own.
 *
 * Promises: standard output carries only what the program answers; exit status 3 if it could not be got to run.
 */
import { pathToFileURL } from 'node:url';
import { buildIfNeeded, mainFile } from './build.mjs';
import { installIfNeeded, LaunchFailure, root, say } from './install.mjs';

const args = process.argv.slice(2);
try {
  await installIfNeeded();
  await buildIfNeeded(halvesFor(args[0]));
} catch (cause) {
  if (!(cause instanceof LaunchFailure)) throw cause;
  say(cause.message);
  process.exit(3);
}

if (args[0] !== '--build-only') {
  standWhereThePersonStands();
  process.argv = [process.argv[0], mainFile, ...args];
  await import(pathToFileURL(mainFile).href);
}

/** Only a station serves pages; what packages hold is needed by whoever writes a record or makes a package. */
function halvesFor(command) {
  if (command === undefined || command === 'serve' || command === '--build-only') return ['server', 'web', 'proof'];
  return command === 'package' || command === 'key' ? ['server', 'proof'] : ['server'];
}

/** npm runs its scripts from the project's folder; the file names that a person types mean the folder they are in. */
function standWhereThePersonStands() {
  const { INIT_CWD: typedIn, npm_lifecycle_event: script } = process.env;
  if (typedIn === undefined || process.cwd() !== root) return;
  if (script === 'start' || script === 'ledger') process.chdir(typedIn);
}
