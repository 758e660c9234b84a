/**
 * What the judge says of the heat inside the parts: one section through each part, computed by conduction from the
 * probes on its faces. Plain data without words for people, as assessment.ts.
 */
import type { Instant, MilliCelsius, Millikelvin, Milliseconds } from '../../measure/quantity.ts';
import type { FarSide } from '../../weld/part.ts';

/** Lowest and highest of what is possible, and the likely value between. The lowest is what is judged. */
export interface BoundedCelsius {
  readonly low: MilliCelsius;
  readonly likely: MilliCelsius;
  readonly high: MilliCelsius;
}

/** Why nothing is computed for a part, or not now. Each is worded with what would change it. */
export type SectionReason =
  /** Missing in the joint. */
  | 'no heated width'
  | 'no air temperature'
  | 'steel not known'
  | 'no outside diameter'
  | 'no probe on the heated face'
  /** Every probe there is less than one thickness from the groove or from the edge of the heater. */
  | 'too near groove or heater edge'
  | 'heated from both faces, one measured'
  | 'far side takes heat that nobody can name'
  | 'thicker than is computed'
  | 'shape not possible'
  /** Passing. */
  | 'no reading yet'
  | 'no trusted fresh reading'
  /** Of a guarded rule: so near the minimum that neither side is proven. */
  | 'within guard band'
  | 'above the range of the properties'
  | 'rises faster than steel'
  | 'far face not as computed';

export interface SectionStatus {
  readonly part: string;
  /** Front (heated face) to back, millimetres; the radius of a bar. */
  readonly depthMillimetres: number;
  /** Which face of the part the front is. */
  readonly front: 'front' | 'back';
  /** Probes that drive it, on the heated face and on the far one. The coldest of each counts. */
  readonly frontProbes: readonly string[];
  readonly backProbes: readonly string[];
  readonly farSide: FarSide;
  /** The far face is measured now: no loss is assumed there. */
  readonly farMeasured: boolean;
  readonly steel?: {
    readonly name: string;
    readonly source: string;
    readonly status: string;
    /** Spread of the diffusivity between grades, as a part either way. */
    readonly band: number;
    readonly by: SteelChoice;
  };
  readonly state: 'met' | 'not met' | 'not judged';
  readonly reason?: SectionReason;
  /** Millimetres or MilliCelsius, as the reason has it. */
  readonly value?: number;
  readonly limit?: number;
  /** Instant of the numbers below: the end of the last step, at most a fiftieth of the time constant ago. */
  readonly at?: Instant;
  readonly coldest?: BoundedCelsius;
  readonly farFace?: BoundedCelsius;
  readonly frontFace?: MilliCelsius;
  /** From front to back at even depths, both faces included. */
  readonly profile?: {
    readonly low: readonly MilliCelsius[];
    readonly likely: readonly MilliCelsius[];
    readonly high: readonly MilliCelsius[];
  };
  /** What is left of what was not known of the inside at the start: a part from 1 to 0, and in kelvin at most. */
  readonly startLeft?: { readonly part: number; readonly atMost: Millikelvin };
  /** The last long gap in the readings: what the face did meanwhile was bounded, not known. */
  readonly gap?: { readonly from: Instant; readonly to: Instant };
  /** What runs sideways out of the heated band now, by the likely wall, a minute; absent where all of the part is heated. */
  readonly leavesSideways?: Millikelvin;
  /** Slowest time constant of the wall, front held. */
  readonly timeConstant?: Milliseconds;
  /** Loss of the far face as found from both probes, W/(m2 K); absent while the readings do not tell it. */
  readonly lossFound?: { readonly coefficient: number; readonly uncertainty: number };
  /** The far probe reads outside what conduction from the heated face allows. */
  readonly doubted?: {
    readonly since: Instant;
    readonly measured: MilliCelsius;
    readonly low: MilliCelsius;
    readonly high: MilliCelsius;
  };
}

export type SteelChoice = 'entered' | 'kind of material' | 'analysis';

/** The coldest point through every part, at minimum and held. Same states and voiding as the soak. */
export interface ThroughStatus {
  /** Asked for by the procedure; otherwise computed and shown. */
  readonly asked: boolean;
  readonly state: 'not begun' | 'running' | 'paused' | 'done' | 'voided' | 'not judged';
  readonly required: Milliseconds;
  readonly done: Milliseconds;
  readonly since?: Instant;
  readonly doneAt?: Instant;
  /** Stays when the hold is lost later. */
  readonly firstDoneAt?: Instant;
  readonly voidedBy?: 'below minimum' | 'gap' | 'guard band';
  /** Paused since a part lies within the guard band, and not for a missing reading. */
  readonly pausedNear?: true;
  /** The section that holds it up: not judged first, else the coldest. */
  readonly worst?: string;
}

/** Likely temperatures at even depths over time, thinned so that a day has no more columns than an hour. */
export interface SectionCourse {
  readonly part: string;
  /** Depths of a column, front and back included. */
  readonly depths: number;
  readonly at: readonly Instant[];
  /** Column after column, front to back. */
  readonly likely: readonly MilliCelsius[];
  /** Lowest possible of the coldest point, one a column. */
  readonly coldest: readonly MilliCelsius[];
}

/** What lies ahead: a forecast, which no verdict hangs on. */
export interface Outlook {
  readonly at: Instant;
  readonly sections: readonly SectionOutlook[];
  /** Until the place that governs is below the maintenance temperature, if it falls on as it does. Absent while it does not fall. */
  readonly breakByTrend?: { readonly probe: string; readonly limit: MilliCelsius; readonly time: Milliseconds };
}

export interface SectionOutlook {
  readonly part: string;
  /** How the heated face is taken to go on. */
  readonly course: 'held' | 'rising' | 'heat off';
  /** Where a rise is taken to end. */
  readonly upTo?: MilliCelsius;
  /** Until the minimum is reached all through and held as asked. 0: it is. */
  readonly ready?: TimeBetween;
  readonly reaches: 'always' | 'not at worst' | 'not likely' | 'never';
  /** Temperature at which the heated face would have to be held, at worst. */
  readonly surfaceNeeded?: MilliCelsius;
  /** With the far face insulated it would get there. */
  readonly insulatedHelps?: boolean;
  /** With the heat off from now, the whole part cooling alike, which is an upper bound: until the coldest point is below the maintenance temperature. */
  readonly coolsBelow?: TimeBetween & { readonly limit: MilliCelsius };
}

/** What is absent does not come in the time looked ahead. */
export interface TimeBetween {
  readonly earliest?: Milliseconds;
  readonly likely?: Milliseconds;
  readonly latest?: Milliseconds;
}
