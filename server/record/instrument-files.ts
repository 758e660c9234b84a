/**
 * Files that say how connected instruments are read. They lie beside the record and are carried along with its copies. After a
 * restoration they wait: a port or an address may lead to another device than it did where the copy was taken, so that
 * nothing is read until a person has tried it and keeps it. What is in them is not looked at here.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const connectionsFolderOf = (folder: string): string => `${folder.replace(/[\\/]+$/, '')}.connections`;
export const waitingFolderOf = (folder: string): string => join(connectionsFolderOf(folder), 'waiting');

const inCopy = (copy: string): string => join(copy, 'connections');

/** Name of the file for a connection of that name, on every system. */
export const connectionFile = (name: string): string =>
  `${encodeURIComponent(name).replaceAll('*', '%2A').replaceAll('.', '%2E')}.json`;

/** Files in that folder, by name; none where it is not there. */
export function connectionFilesIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .toSorted();
}

/** All that were set up, those that wait too, into a copy that is being made. Answers with their names. */
export function carryConnections(record: string, copy: string): readonly string[] {
  const kept = connectionsFolderOf(record);
  return layInto(inCopy(copy), [
    ...filesIn(kept, connectionFilesIn(kept)),
    ...filesIn(waitingFolderOf(record), connectionFilesIn(waitingFolderOf(record))),
  ]);
}

/** Those of a copy that the station does not read in just this way already. Answers with their names. */
export function layWaiting(copy: string, record: string): readonly string[] {
  const isRead = ({ name, bytes }: File): boolean => {
    const path = join(connectionsFolderOf(record), name);
    return existsSync(path) && readFileSync(path).equals(bytes);
  };
  const files = filesIn(inCopy(copy), connectionFilesIn(inCopy(copy))).filter((file) => !isRead(file));
  return layInto(waitingFolderOf(record), files);
}

interface File {
  readonly name: string;
  readonly bytes: Buffer;
}

const filesIn = (folder: string, names: readonly string[]): File[] =>
  names.map((name) => ({ name, bytes: readFileSync(join(folder, name)) }));

/** The first of a name is the one that is read. */
function layInto(folder: string, files: readonly File[]): readonly string[] {
  if (files.length === 0) return [];
  mkdirSync(folder, { recursive: true });
  const byName = new Map(files.toReversed().map((file) => [file.name, file]));
  for (const { name, bytes } of byName.values()) writeWhole(join(folder, name), bytes);
  return [...byName.keys()].toSorted().map(spokenName);
}

/** The file as a whole or not at all. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  writeFileSync(`${path}.part`, content, { flush: true });
  renameSync(`${path}.part`, path);
}

export const spokenName = (file: string): string => {
  const name = file.replace(/\.json$/, '');
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
};
