/** Devices that are plugged in and pulled out again: each a pseudo-terminal behind a name that stays, as of a serial adapter. */
import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { createBoard } from '../../firmware-protocol/emulator/board.ts';
import { checkOf } from '../../server/wire/modbus/rtu-frame.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../server/wire/pseudo-terminal.ts';

export interface Device {
  readonly name: string;
  readonly board: string;
  readonly path: string;
  readonly periodMilliseconds: number;
  /** From its opening until it may say its first reading. */
  readonly startMilliseconds: number;
  plugIn(): Promise<void>;
  unplug(): void;
  say(speaks: boolean): void;
  /** Its port was opened just now. */
  opened(): void;
  nextOpening(): Promise<number>;
  end(): void;
}

/** What stands behind the terminal, and goes on while it is pulled out. */
interface Behind {
  /** Called often; what comes of it is written. */
  speak?(now: number): string;
  hear?(bytes: string): string;
  opened?(): void;
}

/** As PROTOCOL.md has it of a board that its opening starts anew: the emulator's time to its hello. */
const boardStart = 300;
/** Nothing is asked on a serial line before this, since nobody knows what was asked before. */
export const slowestAnswer = 1_000;

export const devicesIn = (home: string): readonly Device[] => [
  device(home, { name: 'A board', board: 'board-1', periodMilliseconds: 500, startMilliseconds: boardStart }, boardAt),
  device(home, { name: 'Lines of text', board: 'METER-1', periodMilliseconds: 500, startMilliseconds: 0 }, linesAt),
  device(
    home,
    { name: 'A Modbus slave', board: 'MODULE-1', periodMilliseconds: 1_000, startMilliseconds: slowestAnswer },
    slaveAt,
  ),
];

/** Connection files of the two that are no board. */
export const connectionsAt = ([, lines, slave]: readonly Device[]): readonly object[] => {
  const common = (kind: string, { name, path, periodMilliseconds }: Device) => ({
    ...{ format: 'preheat connection 1', kind, name, port: path, periodMilliseconds },
    ...{ baud: 19_200, parity: 'even', stopBits: 1 },
  });
  const channel = { channel: 1, thermocouple: 'K' };
  return [
    {
      ...common('text lines', lines!),
      ...{ board: lines!.board, dataBits: 8, pattern: 'T={1}', unit: 'C', decimal: '.', channels: [channel] },
    },
    {
      ...common('modbus rtu', slave!),
      slaves: [
        {
          ...{ board: slave!.board, address: 3, registers: 'input', firstRegister: 0 },
          channels: [{ ...channel, register: 0, number: 'int16', scale: 0.1, unit: 'C' }],
        },
      ],
    },
  ];
};

const boardAt = (period: number): Behind => {
  const board = createBoard({
    identity: 'board-1',
    seed: 1,
    periodMilliseconds: period,
    channels: [{ channel: 1, thermocouple: 'K', where: { at: 'part', depth: 0, distanceMillimetres: 75 } }],
  });
  let at = performance.now();
  let heard = '';
  return {
    opened() {
      at = performance.now();
      board.reboot();
    },
    hear: (bytes) => {
      heard += bytes;
      return '';
    },
    speak(now) {
      const passed = Math.floor(now - at);
      at += passed;
      board.receive(heard);
      heard = '';
      return board.advance(passed);
    },
  };
};

const linesAt = (period: number): Behind => {
  let due = performance.now() + period;
  return {
    speak(now) {
      if (now < due) return '';
      due += period;
      return 'T=151.2\n';
    },
  };
};

/** Answers each question, of eight bytes that may come in parts, with 151.2 in tenths. */
const slaveAt = (): Behind => {
  let heard = '';
  return {
    hear(bytes) {
      heard += bytes;
      if (heard.length < 8) return '';
      const answer = Buffer.from([heard.charCodeAt(0), heard.charCodeAt(1), 2, 0x05, 0xe8, 0, 0]);
      heard = '';
      answer.writeUInt16LE(checkOf(answer, 0, 5), 5);
      return answer.toString('latin1');
    },
  };
};

function device(
  home: string,
  what: Pick<Device, 'name' | 'board' | 'periodMilliseconds' | 'startMilliseconds'>,
  behindIt: (period: number) => Behind,
): Device {
  const path = join(home, `ttyUSB${what.startMilliseconds}`);
  const behind = behindIt(what.periodMilliseconds);
  let plugged: PseudoTerminal | undefined;
  let speaks = true;
  let tell = (_at: number): void => {};
  const write = (bytes: string | undefined): void => {
    if (bytes !== undefined && bytes !== '' && speaks) plugged?.write(bytes);
  };
  const beat = setInterval(() => write(behind.speak?.(performance.now())), 5);
  return {
    ...what,
    path,
    async plugIn() {
      plugged = await openPseudoTerminal();
      if (plugged === undefined) throw new Error('this system has no pseudo-terminal');
      plugged.onData((bytes) => write(behind.hear?.(bytes)));
      symlinkSync(plugged.path, path);
    },
    unplug() {
      if (plugged === undefined) return;
      rmSync(path);
      plugged.close();
      plugged = undefined;
    },
    end() {
      clearInterval(beat);
      this.unplug();
    },
    say: (may) => {
      speaks = may;
    },
    opened() {
      behind.opened?.();
      tell(performance.now());
    },
    nextOpening: () =>
      new Promise((resolve) => {
        tell = resolve;
      }),
  };
}
