/**
 * All that went over a port, with its times, as a text file that a person can read and that can be played again:
 *
 *     capture 1
 *     port /dev/ttyUSB0
 *     begun 1772431200000
 *     0 open 115200
 *     312 in \n
 *     1012 in sample boot=12 ... ~1e70\n
 *     1020 out \nask-hello command=0 ~1ee0\n
 *     5230 lost the cable is out
 *
 * Numbers are milliseconds since `begun`, which is on the wall clock. Bytes stand as the characters they are; LF as \n,
 * the backslash as \\, all others as \x and two digits. Each piece stands in a line of its own, cut where it came cut.
 */
import { limits } from '../measure/limits.ts';
import type { Traffic } from './traffic.ts';

export interface CaptureEvent {
  readonly kind: Traffic['kind'];
  /** Since the capture was begun. */
  readonly milliseconds: number;
  readonly text: string;
}

export interface Capture {
  readonly port: string;
  readonly begun: number;
  readonly events: readonly CaptureEvent[];
}

export const captureHead = (port: string, begun: number): string => `capture 1\nport ${port}\nbegun ${begun}\n`;

export const captureLine = ({ kind, milliseconds, text }: CaptureEvent): string =>
  `${Math.round(milliseconds)} ${kind} ${escaped(text)}\n`;

/** What is wrong with the file, and where. */
export class CaptureProblem extends Error {}

export function readCapture(text: string): Capture {
  const [first, portLine = '', begunLine = '', ...lines] = text.split('\n');
  if (first !== 'capture 1') throw new CaptureProblem('line 1 is not "capture 1": this is no capture of a station');
  const port = /^port (.{1,400})$/.exec(portLine)?.[1];
  if (port === undefined) throw new CaptureProblem('line 2 wants "port" and its name');
  const begun = /^begun (\d{1,15})$/.exec(begunLine)?.[1];
  if (begun === undefined) throw new CaptureProblem('line 3 wants "begun" and milliseconds since 1970 UTC');
  // The last line may be cut: the station may have been killed while it wrote.
  lines.pop();
  let before = 0;
  const events = lines.map((line, index): CaptureEvent => {
    const [, time, kind, content = ''] = /^(\d{1,12}) (open|in|out|lost)(?: (.*))?$/.exec(line) ?? [];
    const milliseconds = Number(time);
    if (time === undefined || kind === undefined || milliseconds < before)
      throw new CaptureProblem(`line ${index + 4} is not a time, "open", "in", "out" or "lost", and what came`);
    before = milliseconds;
    return { kind: kind as Traffic['kind'], milliseconds, text: plain(content, index + 4) };
  });
  return { port, begun: Number(begun), events };
}

/** What a running capture has written so far, and when it has to end. */
export interface Capturing {
  readonly bytes: number;
  readonly milliseconds: number;
}

export const captureIsFull = ({ bytes, milliseconds }: Capturing, minutes: number): boolean =>
  bytes >= limits.captureBytesMaximum || milliseconds >= minutes * 60_000;

const escaped = (text: string): string =>
  text.replace(/[^\x20-\x5b\x5d-\x7e]/g, (character) => {
    if (character === '\n') return '\\n';
    if (character === '\\') return '\\\\';
    return `\\x${character.charCodeAt(0).toString(16).padStart(2, '0').slice(-2)}`;
  });

const plain = (text: string, line: number): string =>
  text.replace(/\\(x[0-9a-f]{2}|.?)/g, (_all, after: string) => {
    if (after === 'n') return '\n';
    if (after === '\\') return '\\';
    if (after.length === 3) return String.fromCharCode(Number.parseInt(after.slice(1), 16));
    throw new CaptureProblem(`line ${line} holds a backslash that means nothing`);
  });
