/**
 * A board that is not played but run: the firmware's image in a simulated processor, with converters at their
 * registers and emulated steel behind them. To whoever holds it, it is a board like the emulated one. Its settings say
 * that it is simulated, and so does its hello.
 */
import { EEPROMMemoryBackend } from 'avr8js';
import { createBench } from '../emulator/bench.ts';
import type { Board, BoardOptions, Injected } from '../emulator/board.ts';
import { createCable } from '../emulator/cable.ts';
import { createNoise } from '../emulator/noise.ts';
import type { Signals } from '../emulator/signal.ts';
import { type ConverterFault, createConverter } from './converter.ts';
import { createProcessor } from './processor.ts';
import { memoryBytes, settingsMemory } from './settings.ts';

export interface FirmwareBoardOptions extends Omit<BoardOptions, 'form' | 'linesKept'> {
  readonly image: Uint16Array;
  readonly mainsHertz?: 50 | 60;
}

export interface FirmwareBoard extends Board {
  converter(channel: number, fault: ConverterFault | 'dip'): void;
  /** An address line of the decoder hangs at 0, or undefined: none. */
  stickAddressLine(line: 0 | 1 | 2 | undefined): void;
  /** The line that tells a result hangs where it tells one. */
  stickReady(hangs: boolean): void;
  /** Bytes of RAM that nothing has ever written. */
  ramLeft(): number;
}

/** Junctions move on and the processor runs in steps of this length, milliseconds. */
const step = 5;
const together = 30;
/** Pins as board/ports/avr/main.c has them. */
const pins = {
  address: [0x01, 0x02],
  addressD: 0x80,
  enable: 0x04,
  arc: 2,
  ready: 6,
  lamp: 0x01,
  horn: 0x02,
  permission: 0x04,
};
const converters = 8;

export function createFirmwareBoard(options: FirmwareBoardOptions): FirmwareBoard {
  const noise = createNoise(options.seed);
  const bench = createBench(options, noise);
  const cable = createCable(noise);
  const memory = new EEPROMMemoryBackend(memoryBytes);
  memory.memory.set(
    settingsMemory({
      identity: options.identity,
      periodMilliseconds: options.periodMilliseconds ?? 1000,
      thermocouples: letters(options),
      mainsHertz: options.mainsHertz ?? 50,
      simulated: true,
      ...(options.boot === undefined ? {} : { starts: options.boot - 1 }),
    }),
  );
  let readyHangs = false;
  let passed = 0;
  let owed = 0;
  let line = '';
  let measured: { readonly at: number; readonly signals: Signals } | undefined;
  let output = 0;
  let stuck: number | undefined;
  let selected: number | undefined;
  let addressed = 0;

  /** Converters that were begun together end within two looks of the firmware, and see one measuring of the bench. */
  const signals = (): Signals => {
    if (measured === undefined || passed - measured.at > together) measured = { at: passed, signals: bench.measure() };
    return measured.signals;
  };
  const units = Array.from({ length: converters }, (_, index) =>
    createConverter({
      now: () => processor.now(),
      signal: () => signals().channels.find(({ channel }) => channel === index + 1),
      noise,
    }),
  );

  const addressOf = (b: number, d: number): number => {
    const asked =
      ((b & pins.address[0]!) !== 0 ? 1 : 0) |
      ((b & pins.address[1]!) !== 0 ? 2 : 0) |
      ((d & pins.addressD) !== 0 ? 4 : 0);
    return stuck === undefined ? asked : asked & ~(1 << stuck);
  };

  const onPins = ({ b, c, d }: { readonly b: number; readonly c: number; readonly d: number }): void => {
    output = c;
    const address = addressOf(b, d);
    const next = (b & pins.enable) !== 0 ? address : undefined;
    if (next !== selected) {
      if (selected !== undefined) units[selected]!.release();
      selected = next;
      if (next !== undefined) units[next]!.select();
    }
    addressed = address;
    showReady();
  };
  const showReady = (): void => processor.setPin('d', pins.ready, !readyHangs && !units[addressed]!.isReady());

  const processor = createProcessor(options.image, {
    onPins,
    exchange: (byte, mode) => {
      if (selected === undefined) return 0xff;
      // In a mode that samples on the other edge all bits come one place late.
      const answer = units[selected]!.exchange(byte);
      return mode === 1 || mode === 3 ? answer : answer >> 1;
    },
    onSent: (byte) => {
      line += String.fromCharCode(byte);
      if (byte !== 0x0a) return;
      cable.send(line);
      line = '';
    },
    memory,
  });
  const setInputs = (): void => processor.setPin('d', pins.arc, !bench.arcBurns());
  for (const pin of [2, 3, 4, 5, 6]) processor.setPin('d', pin, true);

  const inject = (injected: Injected): void => {
    if (injected.kind === 'channel' || injected.kind === 'touch') bench.inject(injected);
    else cable.inject(injected);
  };

  return {
    advance: (milliseconds) => {
      for (owed += milliseconds; owed >= step; owed -= step) {
        for (let moment = 0; moment < step; moment += 1) bench.moment();
        passed += step;
        showReady();
        processor.run(step);
      }
      return cable.take();
    },
    receive: (bytes) => {
      if (!cable.passes()) return;
      for (let index = 0; index < bytes.length; index += 1) processor.hear(bytes.charCodeAt(index));
    },
    heater: bench.heater,
    arc: (on) => {
      bench.arc(on);
      setInputs();
    },
    inject,
    reboot: () => {
      line = '';
      processor.reset();
    },
    outputs: () => ({
      lamp: (output & pins.lamp) !== 0 ? 'on' : 'off',
      horn: (output & pins.horn) !== 0 ? 'on' : 'off',
      permission: (output & pins.permission) !== 0 ? 'given' : 'withheld',
    }),
    celsius: bench.celsius,
    converter: (channel, fault) => {
      const unit = units[channel - 1];
      if (unit === undefined) throw new RangeError(`this board has no channel ${channel}`);
      if (fault === 'dip') unit.dip();
      else unit.fault(fault);
    },
    stickAddressLine: (which) => {
      stuck = which;
    },
    stickReady: (hangs) => {
      readyHangs = hangs;
    },
    ramLeft: processor.ramLeft,
  };
}

/** By channel number from 1 on; a channel that nothing is connected to has an open input of type K. */
function letters({ channels }: FirmwareBoardOptions): ('K' | (typeof channels)[number]['thermocouple'])[] {
  const highest = Math.max(...channels.map(({ channel }) => channel));
  return Array.from(
    { length: highest },
    (_, index) => channels.find(({ channel }) => channel === index + 1)?.thermocouple ?? 'K',
  );
}
