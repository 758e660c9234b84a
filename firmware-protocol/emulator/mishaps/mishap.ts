/**
 * What may happen to a probe, its cable or its converter: how it is said, and what a kind of it is made of. Every
 * number stands in the file of its kind, with where it is from.
 */
import type { Noise } from '../noise.ts';
import type { EmulatedThermocouple } from '../printed-table.ts';
import type { Signal, Signals } from '../signal.ts';

/** One mishap on a board, from and to seconds since its box was first switched on. */
export interface Mishap {
  readonly kind: MishapKind;
  /** All: every channel of the board at once, each in its place. */
  readonly channel: number | 'all';
  /** In the unit of its kind; the usual one unless said. */
  readonly severity?: number;
  /** Of wrong-type: what the wire is. The input stays set to what the channel says. */
  readonly wire?: EmulatedThermocouple;
  /** Of swapped: the channel that it changed places with. */
  readonly other?: number;
  readonly fromSeconds: number;
  readonly untilSeconds?: number;
}

export const mishapKinds = [
  'open',
  'floating',
  'short',
  'dead-input',
  'stuck',
  'reversed-terminal',
  'reversed-extension',
  'copper-extension',
  'wrong-type',
  'detached',
  'tip-on-heater',
  'mains-alias',
  'arc-noise',
  'ground-loop',
  'swapped',
  'drift',
  'cold-junction-jump',
  'slow-poll',
  'bus-zeros',
  'bus-ones',
  'bus-doubled',
  'short-to-ground',
  'short-to-supply',
  'cold-junction-out-of-range',
  'out-of-range',
] as const;
export type MishapKind = (typeof mishapKinds)[number];

/** What a kind keeps of a channel from one moment to the next. */
export interface Kept {
  readonly signal?: Signal;
  readonly value?: number;
}

/** A channel in a mishap at one moment. */
export interface Seen {
  readonly signal: Signal;
  readonly now: Signals;
  readonly severity: number;
  readonly wire: EmulatedThermocouple | undefined;
  /** Of swapped: what the other channel has. */
  readonly counterpart: Signal | undefined;
  /** From the mishap's last moment to this one; 0 at its first. */
  readonly seconds: number;
  /** Where the channel lies along the joint, from 1 at the one end to -1 at the other; a lone channel lies at 1. */
  readonly along: number;
  readonly kept: Kept;
  /** By chance, the same for all channels of the mishap at this moment. */
  readonly together: Noise;
  /** By chance, for this channel alone. */
  readonly own: Noise;
}

export interface Step {
  readonly signal: Signal;
  readonly kept?: Kept;
}

export interface Severity {
  readonly unit: string;
  /** What the number means, for a person. */
  readonly means: string;
  readonly usual: number;
  readonly lowest: number;
  readonly highest: number;
}

export interface KindOfMishap {
  /** One line: what happened, and what is then seen. */
  readonly what: string;
  /** Where form and numbers are from. */
  readonly source: string;
  /** Absent where it either is or is not. */
  readonly severity?: Severity;
  /** What must be said besides. */
  readonly asks?: 'wire' | 'other';
  /** It reaches all channels of a board by its nature. */
  readonly wholeBoard?: true;
  /** Pure: the same for the same. */
  act(seen: Seen): Step;
}

export type KindsOfMishap<Name extends MishapKind> = { readonly [kind in Name]: KindOfMishap };
