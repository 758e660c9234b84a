/** A board that measures nothing and only counts: it speaks the protocol, keeps lines and sends them again. For storms of faults. */
import { decode } from '../../firmware-protocol/codec/decode.ts';
import { encode } from '../../firmware-protocol/codec/encode.ts';
import type { Frame, Reply, Sample } from '../../firmware-protocol/codec/frame.ts';

export interface NumberedBoard {
  /** Whole lines, each with its LF. */
  advance(milliseconds: number): string[];
  receive(bytes: string): void;
  reboot(): void;
}

const period = 500;
const linesKept = 64;
/** Lines sent again between two new ones: so many have room at 115 200 bit/s, and more. */
const againEach = 12;

export function numberedBoard(identity: string, firstBoot: number): NumberedBoard {
  let boot = firstBoot;
  let ticks = 0;
  let sequence = 0;
  let kept: Sample[] = [];
  let out: string[] = [];
  let again: Sample[] = [];
  let answer: Reply | undefined;
  let heard = '';

  const say = (frame: Frame): void => void out.push(`${encode(frame)}\n`);
  const hello = (): void =>
    say({
      kind: 'hello',
      revision: 1,
      board: identity,
      firmware: 'counts-1',
      simulated: true,
      boot,
      ticks,
      periodMilliseconds: period,
      channels: [{ channel: 1, form: 'temperature', thermocouple: 'K' }],
      inputs: 0,
      linesKept,
    });

  const sample = (): void => {
    const values = [
      { channel: 1, faults: [], reading: { form: 'temperature', centiCelsius: sequence % 9000 } },
    ] as const;
    const taken: Sample = { kind: 'sample', boot, sequence, ticks, resent: false, inputs: 0, values };
    sequence += 1;
    kept.push(taken);
    if (kept.length > linesKept) kept.shift();
    say(taken);
    for (const each of again.splice(0, againEach)) say({ ...each, resent: true });
    if (again.length > 0 || answer === undefined) return;
    say(answer);
    answer = undefined;
  };

  const command = (line: string): void => {
    const decoded = decode(line);
    if (!decoded.ok || ticks < 300) return;
    if (decoded.frame.kind === 'ask hello') {
      hello();
      say({ kind: 'reply', command: decoded.frame.command, outcome: 'done' });
    }
    if (decoded.frame.kind === 'send again') {
      const from = decoded.frame.fromSequence;
      again = kept.filter((each) => each.sequence >= from);
      const isWhole = (kept[0]?.sequence ?? 0) <= from;
      answer = { kind: 'reply', command: decoded.frame.command, outcome: isWhole ? 'done' : 'not kept' };
    }
  };

  return {
    advance(milliseconds) {
      const from = ticks;
      ticks += milliseconds;
      if (from < 300 && ticks >= 300) hello();
      for (let at = (Math.floor(from / period) + 1) * period; at <= ticks; at += period) if (at > 300) sample();
      return out.splice(0);
    },
    receive(bytes) {
      heard += bytes;
      const lines = heard.split('\n');
      heard = lines.pop()!;
      for (const line of lines) if (line !== '') command(line);
    },
    reboot() {
      boot += 1;
      ticks = 0;
      sequence = 0;
      kept = [];
      out = [];
      again = [];
      answer = undefined;
      heard = '';
    },
  };
}
