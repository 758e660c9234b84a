/** Where the program's own files lie, beside its sources and beside its built files alike. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = nearestWithPackage(new URL('../', import.meta.url));

export const webFolder = fileURLToPath(new URL('.build/web/', root));
export const demonstrationJoint = new URL('demo-data/demonstration-joint.json', root);
/** A folder: joint files of the finished jobs of the demonstration. */
export const shiftJoints = new URL('demo-data/shift/', root);
/** The firmware of the reference board, for the simulated processor. */
export const firmwareImage = new URL('firmware-protocol/board/image/board.hex', root);

function nearestWithPackage(from: URL): URL {
  if (existsSync(new URL('package.json', from))) return from;
  const above = new URL('../', from);
  if (above.href === from.href) throw new Error('package.json is missing beside the program; install it again');
  return nearestWithPackage(above);
}
