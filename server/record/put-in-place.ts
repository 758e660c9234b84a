/** A folder gets its name in one step, and the step outlives a loss of power. */
import { closeSync, fsyncSync, openSync, renameSync } from 'node:fs';
import { dirname } from 'node:path';

export const renameInto = (from: string, to: string): void => {
  renameSync(from, to);
  flushFolder(dirname(to));
};

/** Windows cannot flush a folder and does so by itself. */
const flushFolder = (folder: string): void => {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};
