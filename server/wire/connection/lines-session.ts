/** One opening of an instrument that prints lines: asks where it has to be asked, reads what comes, notices silence. */
import { limits } from '../../measure/limits.ts';
import { milliseconds } from '../../measure/quantity.ts';
import type { TextLines } from '../../weld/connection/lines.ts';
import { createLineCutter } from '../lines/cut-lines.ts';
import { lineReader } from '../lines/read-line.ts';
import type { Session } from './keep-open.ts';
import type { SessionOptions } from './open-connection.ts';
import { type Silence, silenceOf, watchSilence } from './silence.ts';

export const openLines = async (options: SessionOptions<TextLines>): Promise<Session> => {
  const { connection, clock, outside, tally, lose } = options;
  const { board, periodMilliseconds, query, begin } = connection;
  const speaker = options.speakers[0]!;
  const read = lineReader(connection);
  let spoke = false;
  let answered = true;
  let asked = 0;
  let lines = 0;
  let closed = false;
  let cancel = (): void => {};
  let silence: Silence | undefined;

  const onLine = (line: string): void => {
    if (closed) return;
    lines += 1;
    const found = read(line);
    if (found.kind === 'not understood' || found.kind === 'damaged') {
      tally.bad(
        board,
        found.kind === 'damaged' ? 'wrong check value' : 'line not understood',
        `${found.why}: "${line.slice(0, limits.nameMaximum)}"`,
      );
      return;
    }
    if (found.kind === 'passed over') return;
    silence?.heard();
    answered = true;
    spoke = true;
    speaker.heard();
    tally.good(board);
    for (const doubt of found.doubts) tally.bad(board, 'no temperature', doubt);
    speaker.told(found.values);
  };
  const { lineEnd = 'LF' } = connection;
  const came = { bytes: 0, otherEnd: false };
  const cutter = createLineCutter(lineEnd, onLine, () =>
    tally.bad(board, 'line too long', `a line of more than ${limits.textLineMaximum} characters; is lineEnd right?`),
  );

  const onBytes = (bytes: Uint8Array): void => {
    came.bytes += bytes.length;
    came.otherEnd ||= bytes.includes(lineEnd === 'LF' ? 13 : 10);
    cutter.take(bytes);
  };
  const handlers = { onBytes, onLost: lose };
  const port =
    'port' in connection
      ? await outside.serial(connection)(connection.port, handlers)
      : await outside.network(`${connection.host}:${connection.tcpPort}`, handlers);
  const write = (text: string): void => {
    port.write(text).catch((error) => lose(`writing failed: ${(error as Error).message}`));
  };

  /** Each period: what was asked and not answered is told as no reading; then it is asked again. */
  const turn = (): void => {
    if (closed) return;
    // The first answer may be cut by the opening.
    if (!answered && asked > 1) {
      tally.bad(board, 'no answer', 'no answer to the query');
      speaker.told(connection.channels.map(({ channel }) => ({ channel, said: 'no answer', fault: 'no reading' })));
    }
    answered = false;
    asked += 1;
    write(query!);
    cancel = clock.after(milliseconds(periodMilliseconds), turn);
  };

  const whyNothing = (): string => {
    const { last } = tally.of(board);
    if (lines === 0 && came.bytes > 0) return withoutEnd(came, lineEnd);
    return last === undefined ? 'nothing comes from this port' : `no line could be read: ${last}`;
  };

  const patience = silenceOf(periodMilliseconds);
  silence = watchSilence(clock, patience, () => lose(spoke ? `no reading for ${patience / 1000} s` : whyNothing()));
  speaker.hello();
  speaker.say('waiting for hello', 'the port is open');
  if (begin !== undefined) write(begin);
  if (query !== undefined) turn();
  return {
    spoke: () => spoke,
    async close() {
      closed = true;
      cancel();
      silence?.close();
      await port.close();
    },
  };
};

/** `otherEnd`: whether the character came that ends lines elsewhere. */
const withoutEnd = (came: { readonly bytes: number; readonly otherEnd: boolean }, lineEnd: 'LF' | 'CR'): string =>
  `${came.bytes} bytes came and no end of a line (${lineEnd}); ${
    came.otherEnd
      ? `its lines seem to end with ${lineEnd === 'LF' ? 'CR' : 'LF'}, which has to be said (lineEnd)`
      : 'speed, parity or the end of its lines are others'
  }`;
