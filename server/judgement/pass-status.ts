/** One pass as it was judged: what was measured when it began and while it ran. */
import type { Instant, JoulesPerMetre, MilliCelsius } from '../measure/quantity.ts';
import type { MissingOfArc } from '../metallurgy/heat-input.ts';
import type { Bound } from '../weld/hand-reading.ts';
import type { PassCorrection, PassDetails } from '../weld/pass-acts.ts';
import type { CountedEnergy } from '../weld/welding.ts';
import type { ConditionId } from './condition.ts';

/** open: it hangs on a fact that nobody has stated. */
export interface QualifiedPass {
  readonly preheat?: 'inside' | 'outside' | 'not judged';
  readonly interpass?: 'inside' | 'outside' | 'open' | 'not judged' | 'not needed';
}

export interface PassStatus {
  readonly pass: string;
  readonly passKind: string;
  readonly welder: string;
  /** As entered, with the start, with the end or later. */
  readonly details: PassDetails;
  readonly startedAt: Instant;
  /** When the start was entered; later than startedAt for "started n minutes ago". */
  readonly enteredAt: Instant;
  readonly endedAt?: Instant;
  /** Coldest required place at the start and while it ran. */
  readonly coldestAtStart?: { readonly probe: string; readonly temperature: MilliCelsius; readonly bound?: Bound };
  readonly coldestDuring?: { readonly probe: string; readonly temperature: MilliCelsius };
  /** Interpass reading at the start (none for the first pass is normal). */
  readonly interpass?: {
    readonly probe: string;
    readonly temperature: MilliCelsius;
    readonly by: 'probe' | 'contact';
    readonly bound?: Bound;
  };
  readonly hottestDuring?: { readonly probe: string; readonly temperature: MilliCelsius };
  readonly minimum: 'met' | 'not met' | 'not judged';
  readonly maximum: 'met' | 'not met' | 'not judged' | 'not needed';
  readonly heat: PassHeat;
  /** Of continuous welding: the interpass readings within it, oldest first. */
  readonly rounds?: readonly InterpassRound[];
  /** When the next one is due. */
  readonly nextReadingAt?: Instant;
  /** What was put right of it, oldest first; absent where nothing was. */
  readonly corrections?: readonly ShownCorrection[];
  /** Against the test piece that qualifies the procedure; absent where nothing is compared. */
  readonly qualified?: QualifiedPass;
  /** Conditions not met when it began. */
  readonly outside: readonly ConditionId[];
}

/** How a pass stood before it was put right. */
export type JudgedBefore = Pick<PassStatus, 'minimum' | 'maximum'> & { readonly heat: PassHeat['state'] };
export type ShownCorrection = PassCorrection & { readonly judged?: JudgedBefore };

/** Entered by a slip, and struck: it stays to be seen, and nothing is judged by it. */
export interface StruckPass
  extends Pick<PassStatus, 'pass' | 'passKind' | 'welder' | 'startedAt' | 'enteredAt' | 'endedAt'> {
  readonly corrections: readonly ShownCorrection[];
}

/** One interpass reading within a continuous pass. */
export interface InterpassRound {
  readonly at: Instant;
  readonly state: 'window' | 'too hot' | 'not judged';
  readonly probe?: string;
  readonly temperature?: MilliCelsius;
  readonly bound?: Bound;
}

/** The energy that a pass brought, against its window. */
export interface PassHeat {
  /** not asked: shown only. not given: asked for, and numbers are missing. */
  readonly state: 'within' | 'below' | 'above' | 'not asked' | 'not given' | 'running';
  readonly counted: CountedEnergy;
  readonly energy?: JoulesPerMetre;
  /** What it was worked out from. */
  readonly words?: string;
  readonly missing?: readonly MissingOfArc[];
}
