/**
 * The check of the probes before heating, from its numbers: at rest all probes read about alike and about what the air
 * has; then each tip is warmed or cooled by hand, and that probe and no other has to move, and the right way. Nobody
 * states an outcome: it follows from what was read.
 */
import { type MilliCelsius, type Millikelvin, milliCelsius } from '../../measure/quantity.ts';
import type { AmbientCheck, AmbientTouch } from '../../weld/ambient-check.ts';

export const ambientRules = {
  /** What a hand does to a tip within seconds; four steps of a converter of 0.25 K. Own choice. */
  movesMillikelvin: 1_000,
  /** The probe that was asked moves at least this many times as far as every other one. Own choice. */
  clearBy: 2,
  /** Two wires of IEC 60584-1 class 2 against each other: the root of 2.5 K squared, twice. */
  apartMillikelvin: 3_536,
  /** A cold junction or a setting that is wrong shows as more than this on all probes; a part from outdoors can too. Own choice. */
  fromAirMillikelvin: 5_000,
} as const;

export type AmbientOutcome =
  | 'in order'
  | 'no reading'
  | 'not touched'
  | 'does not move'
  | 'moves the wrong way'
  | 'another moves'
  | 'changed places'
  | 'several move'
  | 'off at rest';

export interface ProbeAtAmbient {
  readonly probe: string;
  readonly outcome: AmbientOutcome;
  /** The probe that moved in its stead, or with which it changed places. */
  readonly other?: string;
  readonly atRest?: MilliCelsius;
  /** From the middle of all probes at rest. */
  readonly apart?: Millikelvin;
  /** How far it moved when it was touched. */
  readonly moved?: Millikelvin;
}

export interface AmbientOutcomes {
  readonly probes: readonly ProbeAtAmbient[];
  /** Warmest less coldest at rest; absent with fewer than two readings. */
  readonly spread?: Millikelvin;
  /** The middle of all probes less the air as it was entered; absent without a reading. */
  readonly fromAir?: Millikelvin;
  /** All of them together lie too far from the air. */
  readonly isOffAir: boolean;
}

export type Touched = Pick<ProbeAtAmbient, 'outcome' | 'other' | 'moved'>;

/** Every probe of the check, in the order of its readings at rest. The last touch of a probe counts. */
export function ambientOutcomes({ airCelsius, rest, touches }: AmbientCheck): AmbientOutcomes {
  const read = rest.flatMap(({ celsius }) => (celsius === undefined ? [] : [milliCelsius(celsius)]));
  const middle = middleOf(read);
  const fromAir = middle === undefined ? undefined : ((middle - milliCelsius(airCelsius)) as Millikelvin);
  const touched = new Map<string, Touched>();
  for (const touch of touches) touched.set(touch.probe, touchOutcome(touch, rest));
  const probes = rest.map(({ probe, celsius }): ProbeAtAmbient => {
    if (celsius === undefined) return { probe, outcome: 'no reading' };
    const atRest = milliCelsius(celsius);
    const apart = (atRest - middle!) as Millikelvin;
    const found = exchanged(probe, touched) ?? touched.get(probe) ?? { outcome: 'not touched' };
    const isOff = found.outcome === 'in order' && Math.abs(apart) > ambientRules.apartMillikelvin;
    return { probe, ...found, ...(isOff ? { outcome: 'off at rest' } : {}), atRest, apart };
  });
  return {
    probes,
    ...(read.length < 2 ? {} : { spread: (Math.max(...read) - Math.min(...read)) as Millikelvin }),
    ...(fromAir === undefined ? {} : { fromAir }),
    isOffAir: fromAir !== undefined && Math.abs(fromAir) > ambientRules.fromAirMillikelvin,
  };
}

/** What one touch says of the probe that was to be touched. */
export function touchOutcome({ probe, way, readings }: AmbientTouch, rest: AmbientCheck['rest']): Touched {
  const moves = readings.map((each) => ({
    probe: each.probe,
    moved: (each.probe === probe ? movedAway : movedBesides)(
      each,
      rest.find((one) => one.probe === each.probe)?.celsius,
    ),
  }));
  const own = moves.find((each) => each.probe === probe)?.moved ?? noMove;
  const furthest = moves
    .filter((each) => each.probe !== probe)
    .sort((a, b) => Math.abs(b.moved) - Math.abs(a.moved))[0];
  const others = furthest?.moved ?? noMove;
  const ownMoves = Math.abs(own) >= ambientRules.movesMillikelvin;
  const otherMoves = Math.abs(others) >= ambientRules.movesMillikelvin;
  if (!ownMoves && !otherMoves) return { outcome: 'does not move', moved: own };
  if (ownMoves && Math.abs(own) >= ambientRules.clearBy * Math.abs(others)) {
    const isRight = own > 0 === (way === 'warmed');
    return { outcome: isRight ? 'in order' : 'moves the wrong way', moved: own };
  }
  if (otherMoves && Math.abs(others) >= ambientRules.clearBy * Math.abs(own)) {
    return { outcome: 'another moves', other: furthest!.probe, moved: own };
  }
  return { outcome: 'several move', other: furthest!.probe, moved: own };
}

const noMove = 0 as Millikelvin;

/** From where it began; what only goes back toward rest, after a touch before this one, is no move. */
function movedAway({ fromCelsius, toCelsius }: AmbientTouch['readings'][number], restCelsius?: number): Millikelvin {
  const from = milliCelsius(fromCelsius);
  const to = milliCelsius(toCelsius);
  if (restCelsius === undefined) return (to - from) as Millikelvin;
  const [before, after] = [from - milliCelsius(restCelsius), to - milliCelsius(restCelsius)];
  if (Math.abs(after) <= Math.abs(before)) return noMove;
  return (before > 0 === after > 0 ? after - before : after) as Millikelvin;
}

/** Of the others: one that was moved before goes back, and beyond where it was at rest if that has drifted meanwhile. */
function movedBesides(reading: AmbientTouch['readings'][number], restCelsius?: number): Millikelvin {
  const moved = milliCelsius(reading.toCelsius) - milliCelsius(reading.fromCelsius);
  const before = restCelsius === undefined ? 0 : milliCelsius(reading.fromCelsius) - milliCelsius(restCelsius);
  const goesBack = Math.abs(before) >= ambientRules.movesMillikelvin / 2 && moved > 0 !== before > 0;
  return goesBack ? noMove : movedAway(reading, restCelsius);
}

/** Each moved when the other was touched. */
function exchanged(probe: string, touched: ReadonlyMap<string, Touched>): Touched | undefined {
  const found = touched.get(probe);
  if (found?.outcome !== 'another moves') return undefined;
  const back = touched.get(found.other!);
  return back?.outcome === 'another moves' && back.other === probe
    ? { ...found, outcome: 'changed places' }
    : undefined;
}

function middleOf(values: readonly MilliCelsius[]): MilliCelsius | undefined {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  if (sorted.length === 0) return undefined;
  return sorted.length % 2 === 1 ? sorted[half] : (Math.round((sorted[half - 1]! + sorted[half]!) / 2) as MilliCelsius);
}
