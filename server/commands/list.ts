/** Every command of the command line; a new one is one file and one line here. */
import { backup } from './backup.ts';
import type { Command } from './command.ts';
import { doctor } from './doctor.ts';
import { emulate } from './emulate.ts';
import { find } from './find.ts';
import { head } from './head.ts';
import { judge } from './judge.ts';
import { key } from './key.ts';
import { packageCommand } from './package.ts';
import { people } from './people.ts';
import { putBackReadings } from './put-back-readings.ts';
import { removeReadings } from './remove-readings.ts';
import { replay } from './replay.ts';
import { requirement } from './requirement.ts';
import { restore } from './restore.ts';
import { schema } from './schema.ts';
import { serve } from './serve.ts';
import { stamp } from './stamp.ts';
import { statistics } from './statistics.ts';
import { verify } from './verify.ts';
import { whatIf } from './what-if.ts';

export const commands: readonly Command[] = [
  serve,
  people,
  requirement,
  judge,
  whatIf,
  verify,
  packageCommand,
  backup,
  restore,
  removeReadings,
  putBackReadings,
  head,
  key,
  find,
  statistics,
  doctor,
  stamp,
  emulate,
  replay,
  schema,
];
