/**
 * A sign: what the readings of one probe, or of one board, show that a sound one would not. It is evidence. It takes
 * nothing out of the record and no probe out of the judgement.
 */
import type { Instant } from '../measure/quantity.ts';

/** In this order: where the readings of a probe show several, the first explains the others. */
export const signKinds = [
  'bus-zeros',
  'bus-ones',
  'bus-doubled',
  'cold-junction-jump',
  'stuck',
  'slow-poll',
  'ground-loop',
  'arc-noise',
  'mains-alias',
  'detached',
  'tip-on-heater',
  'open',
  'dead-input',
  'reversed-terminal',
  'swapped',
  'wrong-type',
  'short',
  'reversed-extension',
  'copper-extension',
  'drift',
] as const;
export type SignKind = (typeof signKinds)[number];

/** clear: hardly anything else does this. likely: it fits this best. possible: other causes fit as well. */
const surenesses = ['possible', 'likely', 'clear'] as const;
export type Sureness = (typeof surenesses)[number];

/** Numbers that were seen, integers: thousandths of a degree or kelvin, milliseconds, tenths of a microvolt, counts, per cent. */
export interface Seen {
  /** What the probe read, thousandths of a degree. */
  readonly reading?: number;
  /** What others read that it was compared with. */
  readonly others?: number;
  /** The terminals. */
  readonly terminals?: number;
  /** How far it is off, jumped or swings, thousandths of a kelvin. */
  readonly difference?: number;
  /** For how long, how often it repeats, or over what time it fell. */
  readonly lasting?: number;
  readonly times?: number;
  /** Of what the others rose above the terminals, per cent. */
  readonly share?: number;
}

/** What a detector says of the moment. */
export interface Sighting {
  readonly kind: SignKind;
  readonly sure: Sureness;
  /** Absent where the whole board shows it. */
  readonly probe?: string;
  readonly board?: string;
  /** The probe that it was compared or changed with. */
  readonly against?: string;
  /** What cannot be, seen this: told of the probe before, it is taken back. */
  readonly disproves?: SignKind;
  /** When it began, where that lies before the moment. */
  readonly since?: Instant;
  readonly seen: Seen;
}

export interface Sign extends Sighting {
  readonly since: Instant;
}

/** What became of a sign with the newest readings. */
export interface SignChange {
  readonly change: 'opened' | 'closed';
  readonly sign: Sign;
  /** When it was last seen; of one that opens, now. */
  readonly to: Instant;
}
