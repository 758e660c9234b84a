/** A reading taken by hand, as it is judged: with its correction, its uncertainty, and what stood beside it. */
import type { Instant, MilliCelsius, Millikelvin } from '../../measure/quantity.ts';
import type { Bound } from '../../weld/hand-reading.ts';
import type { HandKind } from '../../weld/instrument.ts';
import type { Place } from '../../weld/probe.ts';

export interface HandReading {
  readonly at: Instant;
  readonly enteredAt: Instant;
  readonly who: string;
  readonly instrument: string;
  /** Absent where neither the entry nor the register names it. */
  readonly instrumentKind?: HandKind;
  /** With the correction of its instrument; of a crayon the temperature that it is made for. */
  readonly temperature: MilliCelsius;
  readonly correction?: Millikelvin;
  /** Of a crayon: the part is at least so warm, or below. */
  readonly bound?: Bound;
  readonly emissivity?: number;
  readonly use: 'interpass' | 'zone' | 'opposite face';
  readonly place: Place;
  /** Always kept here, whatever the decision rule; the guard band asks for it only under a guarded one. */
  readonly standardUncertainty: Millikelvin;
  /** The probe that it was held beside. */
  readonly probe?: string;
  /** Absent where it was held beside none, where the probe gave no reading, and of a bound. */
  readonly twin?: Twin;
}

/** A probe and a reading by hand beside it. */
export interface Twin {
  readonly probe: string;
  /** Of the probe, as it was judged then. */
  readonly temperature: MilliCelsius;
  /** By hand, minus the probe. */
  readonly difference: Millikelvin;
  /** Of the two together, k = 2. */
  readonly expandedUncertainty: Millikelvin;
  readonly agrees: boolean;
}
