/** The folder of another logger on this machine's disk. Nothing is locked and nothing is written. */
import { open, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Files, Listed } from './folder-session.ts';

export const diskFiles: Files = {
  async list(folder) {
    const names = await readdir(folder);
    const all = await Promise.all(names.map((name) => listedAt(folder, name)));
    return all.filter((each) => each !== undefined);
  },
  async read(folder, name, from, to) {
    const file = await open(join(folder, name), 'r');
    try {
      const buffer = new Uint8Array(Math.max(0, to - from));
      const { bytesRead } = await file.read(buffer, 0, buffer.length, from);
      return buffer.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  },
};

/** A file that goes while it is looked at is not there. */
async function listedAt(folder: string, name: string): Promise<Listed | undefined> {
  try {
    const found = await stat(join(folder, name));
    return found.isFile() ? { name, size: found.size, modifiedAt: found.mtimeMs } : undefined;
  } catch {
    return undefined;
  }
}
