/**
 * An ATmega328P at 7.3728 MHz that runs the firmware's image. While the firmware sleeps nothing is computed: time jumps
 * to the next thing that can wake it. What the library does otherwise than the real processor is put right here: SLEEP,
 * the one instruction after SEI that no interrupt can come before, and two flags of the UART.
 */
import {
  AVRClock,
  AVREEPROM,
  AVRIOPort,
  AVRSPI,
  AVRTimer,
  AVRUSART,
  AVRWatchdog,
  avrInstruction,
  CPU,
  clockConfig,
  type EEPROMBackend,
  portBConfig,
  portCConfig,
  portDConfig,
  spiConfig,
  timer1Config,
  usart0Config,
  watchdogConfig,
} from 'avr8js';

/** Looked up once: this is called some hundred thousand times for each second of the board. */
const instruct = avrInstruction;
const clockHertz = 7_372_800;
const ramBytes = 2_048;
const [sleepInstruction, enableInterrupts] = [0x9588, 0x9478];
/** What RAM holds before the firmware writes it, to see how far the stack came. */
const untouched = 0xa5;
const firstRamAddress = 0x100;

export interface Wired {
  /** Output pins of the ports, each time one may have changed. */
  onPins(pins: { readonly b: number; readonly c: number; readonly d: number }): void;
  /** One byte over SPI; what the selected converter answers. mode: 0 to 3. */
  exchange(byte: number, mode: number): number;
  onSent(byte: number): void;
  readonly memory: EEPROMBackend;
}

export interface Processor {
  run(milliseconds: number): void;
  /** Milliseconds since it was made, over all resets. */
  now(): number;
  /** A byte on the line to it; they follow each other at the line's speed. */
  hear(byte: number): void;
  setPin(port: 'd', pin: number, high: boolean): void;
  reset(): void;
  /** Bytes of RAM below the stack that nothing has ever written. */
  ramLeft(): number;
}

export function createProcessor(image: Uint16Array, wired: Wired): Processor {
  const cpu = new CPU(image, ramBytes);
  // The library keeps this to itself; without it sleep would have to be computed step by step.
  const events = cpu as unknown as { readonly nextClockEvent: { readonly cycles: number } | null };
  const clock = new AVRClock(cpu, clockHertz, clockConfig);
  const [b, c, d] = [portBConfig, portCConfig, portDConfig].map((config) => new AVRIOPort(cpu, config)) as [
    AVRIOPort,
    AVRIOPort,
    AVRIOPort,
  ];
  const spi = new AVRSPI(cpu, spiConfig, clockHertz);
  const usart = new AVRUSART(cpu, usart0Config, clockHertz);
  mendFlags(cpu, usart);
  new AVRTimer(cpu, timer1Config);
  new AVREEPROM(cpu, wired.memory);
  new AVRWatchdog(cpu, watchdogConfig, clock);
  let asleep = false;
  let heard: number[] = [];

  const pinsChanged = (): void =>
    wired.onPins({
      b: cpu.data[portBConfig.PORT]! & cpu.data[portBConfig.DDR]!,
      c: cpu.data[portCConfig.PORT]! & cpu.data[portCConfig.DDR]!,
      d: cpu.data[portDConfig.PORT]! & cpu.data[portDConfig.DDR]!,
    });
  for (const port of [b, c, d]) port.addListener(pinsChanged);
  spi.onByte = (byte) => {
    const answer = wired.exchange(byte, (cpu.data[spiConfig.SPCR]! >> 2) & 3);
    cpu.addClockEvent(() => spi.completeTransfer(answer), spi.transferCycles);
  };
  usart.onByteTransmit = wired.onSent;
  const hearNext = (): void => {
    const byte = heard[0];
    if (byte === undefined || usart.rxBusy) return;
    heard.shift();
    // A receiver that is not switched on yet hears nothing.
    usart.writeByte(byte);
  };
  usart.onRxComplete = hearNext;
  cpu.data.fill(untouched, firstRamAddress);

  /** Lets one event happen, or time run out; awake again once an interrupt has been taken. */
  const sleepOn = (until: number): void => {
    const next = events.nextClockEvent?.cycles ?? Number.POSITIVE_INFINITY;
    const { pc } = cpu;
    cpu.cycles = Math.max(cpu.cycles, Math.min(next, until));
    cpu.tick();
    if (cpu.pc !== pc) asleep = false;
  };

  const run = (until: number): void => {
    while (cpu.cycles < until) {
      if (asleep) {
        sleepOn(until);
        continue;
      }
      if (image[cpu.pc] === enableInterrupts) instruct(cpu);
      const sleeps = image[cpu.pc] === sleepInstruction;
      instruct(cpu);
      const { pc } = cpu;
      cpu.tick();
      asleep = sleeps && cpu.pc === pc;
    }
  };

  return {
    run: (milliseconds) => {
      hearNext();
      run(cpu.cycles + Math.round((milliseconds * clockHertz) / 1000));
    },
    now: () => (cpu.cycles * 1000) / clockHertz,
    hear: (byte) => heard.push(byte),
    setPin: (_port, pin, high) => d.setPin(pin, high),
    reset: () => {
      heard = [];
      asleep = false;
      cpu.reset();
      // What a reset does to the registers of the peripherals, of which the library knows nothing.
      for (const register of [usart0Config.UCSRB, timer1Config.TIMSK, timer1Config.TCCRB, spiConfig.SPCR]) {
        cpu.writeData(register, 0);
      }
      for (const { DDR, PORT } of [portBConfig, portCConfig, portDConfig]) {
        cpu.writeData(DDR, 0);
        cpu.writeData(PORT, 0);
      }
      cpu.data[95] = 0;
      pinsChanged();
    },
    // The longest stretch: a byte of the same value may stand among what was written.
    ramLeft: () => {
      let longest = 0;
      let run = 0;
      for (const byte of cpu.data.subarray(firstRamAddress)) {
        run = byte === untouched ? run + 1 : 0;
        longest = Math.max(longest, run);
      }
      return longest;
    },
  };
}

type Flag = Parameters<CPU['setInterruptFlag']>[0];

/**
 * Data register empty: served is not done with, only the next byte takes the flag down. Receive complete: it stays up
 * until the byte is read, whatever is written to the control register meanwhile.
 */
function mendFlags(cpu: CPU, usart: AVRUSART): void {
  const { UDRE, RXC } = usart as unknown as { readonly UDRE: { constant?: boolean }; readonly RXC: Flag };
  UDRE.constant = true;
  const { UCSRA, UCSRB } = usart0Config;
  const write = cpu.writeHooks[UCSRB]!;
  cpu.writeHooks[UCSRB] = (...written) => {
    const waits = (cpu.data[UCSRA]! & RXC.flagMask) !== 0;
    const taken = write(...written);
    if (waits) cpu.setInterruptFlag(RXC);
    return taken;
  };
}
