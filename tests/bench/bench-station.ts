/** What the stations of all benches have: the machine's own clock, a new record in the folder, any port for browsers, nothing told. */
import { join } from 'node:path';
import { readProgram } from '../../server/program.ts';
import { machineClock } from '../../server/station/machine-clock.ts';

export const benchStation = (home: string) => ({
  folder: join(home, 'record'),
  begin: true,
  clock: machineClock(),
  platform: process.platform,
  httpPort: 0,
  host: '127.0.0.1',
  webFolder: home,
  program: readProgram(),
  tell: () => {},
});
