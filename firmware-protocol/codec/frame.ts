/**
 * What a line on the wire means, both ways. PROTOCOL.md is normative; this file is its vocabulary in
 * TypeScript. No dependency: the board, the server and the emulator answer to the same words.
 */

export const thermocoupleLetters = ['K', 'J', 'T', 'E', 'N', 'R', 'S', 'B'] as const;
export type ThermocoupleLetter = (typeof thermocoupleLetters)[number];

export const faults = [
  'open',
  'short to ground',
  'short to supply',
  'cold junction out of range',
  'out of range',
] as const;
export type Fault = (typeof faults)[number];

export interface HelloChannel {
  /** 1 to 16. */
  readonly channel: number;
  /** voltage: sends microvolts and its cold junction. temperature: sends the instrument's own temperature. */
  readonly form: 'voltage' | 'temperature';
  readonly thermocouple: ThermocoupleLetter;
}

/** Board to host, after each boot and when asked. */
export interface Hello {
  readonly kind: 'hello';
  readonly revision: number;
  /** Identity that stays with the board, not with the port. */
  readonly board: string;
  readonly firmware: string;
  /** True if and only if the sender is software that plays a board. */
  readonly simulated: boolean;
  /** Counts boots; a new number means that ticks and sequence began again. */
  readonly boot: number;
  readonly ticks: number;
  readonly periodMilliseconds: number;
  readonly channels: readonly HelloChannel[];
  /** Number of digital inputs; input 1 is arc on where wired. */
  readonly inputs: number;
  /** Lines that the board keeps for sending again; 0 if none. */
  readonly linesKept: number;
}

export interface SampleValue {
  readonly channel: number;
  readonly faults: readonly Fault[];
  readonly reading:
    | { readonly form: 'voltage'; readonly deciMicrovolts: number; readonly coldJunctionCentiCelsius: number }
    | { readonly form: 'temperature'; readonly centiCelsius: number }
    /** Nothing was measured; stands only beside a fault. A board never fills the place with a number. */
    | { readonly form: 'none' };
}

/** Board to host, each period. */
export interface Sample {
  readonly kind: 'sample';
  readonly boot: number;
  readonly sequence: number;
  /** Board milliseconds since boot at the moment of measuring. */
  readonly ticks: number;
  /** True on a line that the host asked for again. */
  readonly resent: boolean;
  /** Bit 0 is input 1. */
  readonly inputs: number;
  readonly values: readonly SampleValue[];
}

/** Board to host: what became of a command. */
export interface Reply {
  readonly kind: 'reply';
  /** Number that the host gave its command. */
  readonly command: number;
  readonly outcome: 'done' | 'refused' | 'not kept';
}

export type BoardFrame = Hello | Sample | Reply;

/** Host to board. Each command carries a number that the reply names. */
export type HostFrame =
  | { readonly kind: 'ask hello'; readonly command: number }
  | { readonly kind: 'period'; readonly command: number; readonly periodMilliseconds: number }
  | { readonly kind: 'send again'; readonly command: number; readonly fromSequence: number }
  | { readonly kind: 'lamp'; readonly command: number; readonly state: 'off' | 'on' | 'slow' | 'fast' }
  | { readonly kind: 'horn'; readonly command: number; readonly state: 'off' | 'on' }
  | { readonly kind: 'permission'; readonly command: number; readonly state: 'withheld' | 'given' }
  | { readonly kind: 'heartbeat'; readonly command: number };

export type Frame = BoardFrame | HostFrame;

/** Why a line is not a frame. */
export type Rejection =
  | 'too long'
  | 'not printable'
  | 'no check value'
  | 'wrong check value'
  | 'unknown kind'
  | 'unknown revision'
  | 'malformed'
  | 'out of bounds';

export type Decoded =
  | { readonly ok: true; readonly frame: Frame }
  | { readonly ok: false; readonly rejection: Rejection; readonly detail: string };
