/**
 * Follows a folder into which another logger writes: the files that are there when it begins are read from their end on, later
 * ones from their beginning. Times are those of the station, at the distances that the file's own clock gives.
 */
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';
import type { CsvFolder } from '../../weld/connection/folder.ts';
import { type Head, headOf, type Row, rowsOf } from '../folder/rows.ts';
import { createTail } from '../folder/tail.ts';
import type { Session } from './keep-open.ts';
import type { SessionOptions } from './open-connection.ts';
import { silenceOf } from './silence.ts';

export interface Listed {
  readonly name: string;
  readonly size: number;
  readonly modifiedAt: number;
}

/** What is asked of the disk. Both reject with words. */
export interface Files {
  list(folder: string): Promise<readonly Listed[]>;
  read(folder: string, name: string, from: number, to: number): Promise<Uint8Array>;
}

interface Followed {
  readonly tail: ReturnType<typeof createTail>;
  head?: Head | undefined;
  /** Why it cannot be read, told once. */
  trouble?: string;
}

const ticksRange = 2 ** 32;

export const openFolder = async (options: SessionOptions<CsvFolder>): Promise<Session> => {
  const { connection, clock, tally, outside } = options;
  const { board, folder, periodMilliseconds } = connection;
  const speaker = options.speakers[0]!;
  const silence = silenceOf(periodMilliseconds);
  const followed = new Map<string, Followed>();
  let newest: number | undefined;
  let greeted = false;
  /** Why there is no file to be read. */
  let whyNone: string | undefined;
  /** Why it is not read now. */
  let lostFor: string | undefined;
  let heardAt = clock.monotonic();
  let closed = false;
  let cancel = (): void => {};
  let looking: Promise<void> = Promise.resolve();

  const readerOf = (name: string) => (from: number, to: number) => outside.files.read(folder, name, from, to);

  const begin = async (): Promise<void> => {
    for (const { name, size } of await listed()) {
      const tail = createTail();
      await tail.skipTo(size, readerOf(name));
      followed.set(name, { tail });
    }
  };

  /** Of the files that are meant, the one written to last at the end. */
  const listed = async (): Promise<readonly Listed[]> => {
    const all = await outside.files.list(folder);
    const meant = all.filter(({ name }) => isMeant(connection.files, name));
    whyNone = meant.length > 0 ? undefined : noneMeant(connection.files, all);
    return meant
      .toSorted((a, b) => a.modifiedAt - b.modifiedAt || (a.name < b.name ? -1 : 1))
      .slice(-limits.folderFilesMaximum);
  };

  const look = async (): Promise<void> => {
    try {
      for (const file of await listed()) {
        if (closed) return;
        await lookInto(file);
      }
      watch();
    } catch (error) {
      tally.bad(board, 'not readable', wordsOf(error));
      lose(`the folder or a file in it cannot be read: ${wordsOf(error)}`);
    }
  };

  const lookInto = async ({ name, size }: Listed): Promise<void> => {
    const file = followed.get(name) ?? { tail: createTail() };
    followed.set(name, file);
    const { bytes, from, anew } = await file.tail.added(size, readerOf(name));
    if (anew) {
      delete file.head;
      tally.bad(board, 'file written anew', `${name} was cut short or written anew`);
    }
    if (bytes.length === 0) return;
    file.head ??= await headIn(file, name, size);
    // Without a reading there is none to lose; with trouble it was told.
    if (file.head === undefined) return;
    const { rows, problems } = rowsOf(
      connection,
      file.head,
      bytes.subarray(Math.max(0, file.head.bytes.length - from)),
    );
    for (const problem of problems) tally.bad(board, 'row not read', `${name}: ${problem}`);
    for (const { doubts } of tell(rows, file.head.isDated && (anew || !greeted)))
      for (const doubt of doubts) tally.bad(board, 'no temperature', `${name}: ${doubt}`);
  };

  const headIn = async (file: Followed, name: string, size: number): Promise<Head | undefined> => {
    const beginning = await readerOf(name)(0, Math.min(size, limits.folderHeadMaximum));
    const head = headOf(connection, beginning);
    if (typeof head !== 'string') return head;
    if (head !== file.trouble) tally.bad(board, 'file not understood', `${name}: ${head}`);
    file.trouble = head;
    return undefined;
  };

  /** `repeats`: the rows may hold what was told already. */
  const tell = (rows: readonly Row[], repeats: boolean): readonly Row[] => {
    const fresh = repeats && newest !== undefined ? rows.filter(({ fileTime }) => fileTime > newest!) : rows;
    // Of what was written before the clocks of file and station were paired, only the last is known to be of now.
    const told = greeted ? fresh : fresh.slice(-1);
    if (told.length === 0) return [];
    heardAt = clock.monotonic();
    for (const { fileTime, values } of told) {
      const ticks = ((fileTime % ticksRange) + ticksRange) % ticksRange;
      if (!greeted) speaker.hello(ticks);
      greeted = true;
      newest = fileTime;
      tally.good(board);
      speaker.told(values, ticks);
    }
    if (lostFor !== undefined) speaker.say('waiting for hello', 'rows come again');
    lostFor = undefined;
    speaker.heard();
    return told;
  };

  const watch = (): void => {
    if (clock.monotonic() - heardAt >= silence) lose(whySilent());
  };

  const whySilent = (): string => {
    const last = tally.of(board).last;
    if (whyNone !== undefined) return whyNone;
    if (!greeted && last !== undefined) return `no row could be read: ${last}`;
    return `no new row for ${silence / 1000} s`;
  };

  const lose = (cause: string): void => {
    if (closed || lostFor === cause) return;
    lostFor = cause;
    if (greeted) speaker.say('lost', cause);
    else speaker.say('refused', cause, options.advice);
  };

  const turn = (): void => {
    looking = look().then(() => {
      if (!closed) cancel = clock.after(milliseconds(limits.folderLookMilliseconds), turn);
    });
  };

  await begin();
  speaker.say('waiting for hello', `following ${connection.files}`);
  turn();
  return {
    spoke: () => greeted,
    async close() {
      closed = true;
      cancel();
      await looking;
    },
  };
};

const noneMeant = (files: string, all: readonly Listed[]): string =>
  `no file in the folder is named like ${files}; ${all.length === 0 ? 'it is empty' : `there is ${all[0]!.name}${all.length === 1 ? '' : `, and ${all.length - 1} more`}`}`;

/** A name with * once, for what differs from file to file. */
export const isMeant = (pattern: string, name: string): boolean => {
  const at = pattern.indexOf('*');
  if (at < 0) return name === pattern;
  const [before, after] = [pattern.slice(0, at), pattern.slice(at + 1)];
  return name.length >= before.length + after.length && name.startsWith(before) && name.endsWith(after);
};

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
