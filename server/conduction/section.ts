/**
 * One place of a joint seen through its thickness, with all that is not known carried side by side as walls that are
 * driven by the same readings. Five are the smallest set that bounds:
 * - More loss and a colder start make every point colder, always (the comparison principle of heat conduction). So
 *   the coldest case joins the worst loss with the coldest start, the hottest the best loss with the hottest start.
 * - The spread of the diffusivity has no such order: a quick wall is warmer inside while the face rises and colder
 *   while it falls. So each of the two is carried slow and quick. Between the two ends it may miss by a little where
 *   the face goes up and down at the wall's own pace; tests/laws holds how much.
 * - The fifth is the likely one.
 * The spread acts on the conductivity, not on the capacity: so it reaches the steady state behind a losing face too.
 */
import type { Instant, MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import { coldestOf, hottestOf, meanOf } from './field.ts';
import { type FarCondition, type LossCases, lossCasesOf } from './loss.ts';
import { readingRefused } from './readings.ts';
import { isRefusal, type Refusal, refuse } from './refusal.ts';
import { depthOf, type Shape } from './shape.ts';
import { type Band, copySideways, createSideways, type Sideways, stepSideways } from './sideways.ts';
import type { Steel } from './steel/steel.ts';
import { isBridged, timeConstantOf } from './time-constant.ts';
import { copyWall, createWall, isBackMeasured, presentOf, take, type Wall, type WallSpec } from './wall.ts';

export interface SectionSpec {
  readonly shape: Shape;
  readonly steel: Steel;
  readonly far: FarCondition;
  /** A probe on the far face: it then drives the wall from there, and no loss has to be named. */
  readonly farProbe: boolean;
  /** The air as it was entered; what is told with the readings comes beside it. */
  readonly ambientCelsius: number;
  readonly heaterWattsPerSquareMetre?: number;
  /** Where it lies in the heated band; absent where all of the part is heated, as in a furnace. */
  readonly band?: Band;
}

/** Known all through, or only at the face that is measured: then anything between ambient and face is plausible. */
export interface SectionStart {
  readonly at: Instant;
  readonly faceCelsius: number;
  readonly inside: 'as the face' | 'not known';
}

export interface Section {
  readonly spec: SectionSpec;
  readonly likely: Wall;
  readonly coldSlow: Wall;
  readonly coldQuick: Wall;
  readonly hotSlow: Wall;
  readonly hotQuick: Wall;
  readonly sideways?: Sideways;
}

/** Lowest and highest of what is possible, and the likely value between. */
export interface Bounded {
  readonly low: MilliCelsius;
  readonly likely: MilliCelsius;
  readonly high: MilliCelsius;
}

export function createSection(spec: SectionSpec, start: SectionStart): Section | Refusal {
  const losses = lossCasesOf(spec.far);
  if (losses === undefined && !spec.farProbe) {
    return refuse(
      'far side not judged',
      'Behind the wall is a colder mass or a fluid: what it takes can not be named. Put a probe on the far face.',
    );
  }
  const made = {} as { -readonly [name in keyof Section]: Section[name] };
  made.spec = spec;
  for (const name of wallNames) {
    const wall = wallOf(spec, start, name, losses);
    if (isRefusal(wall)) return wall;
    made[name] = wall;
  }
  const { band, steel, shape, ambientCelsius } = spec;
  if (band === undefined) return made;
  return {
    ...made,
    sideways: createSideways(band, steel, depthOf(shape), { celsius: start.faceCelsius, ambientCelsius }),
  };
}

/**
 * As `drive` of a wall: a refused reading changes nothing. Air that is told with the readings is the likely one; the
 * cold walls take the lower of it and of what was entered, the hot ones the higher.
 */
export function driveSection(
  section: Section,
  at: Instant,
  front?: MilliCelsius,
  back?: MilliCelsius,
  ambientCelsius?: number,
): Refusal | undefined {
  const { likely, spec } = section;
  const refused = readingRefused(likely, at, { front, back, ambientCelsius }) ?? farProbeRefused(section, at, back);
  if (refused !== undefined) return refused;
  const told = ambientCelsius ?? likely.ambientCelsius;
  const lower = Math.min(told, spec.ambientCelsius);
  const higher = Math.max(told, spec.ambientCelsius);
  const { at: stepped } = likely;
  take(likely, at, front, back, told);
  for (const wall of [section.coldSlow, section.coldQuick]) take(wall, at, front, back, lower);
  for (const wall of [section.hotSlow, section.hotQuick]) take(wall, at, front, back, higher);
  if (section.sideways !== undefined && likely.at > stepped) {
    stepSideways(section.sideways, (likely.at - stepped) / 1000, meanOf(likely.field));
    for (const wall of wallsOf(section)) wall.field.sideways = sidewaysOf(section, wall, section.sideways.leaving);
  }
  return undefined;
}

/**
 * What a wall of the section loses sideways while so much leaves: the cold ones a quarter more, for the spread of the
 * steel and for what the band is not heated evenly, and never less than nothing; the hot ones nothing, since the plate
 * may end behind the band; they gain what comes in.
 */
export function sidewaysOf(section: Section, wall: Wall, leaving: number): number {
  if (wall === section.likely) return leaving;
  return wall === section.coldSlow || wall === section.coldQuick
    ? coldSidewaysFactor * Math.max(0, leaving)
    : Math.min(0, leaving);
}

/** Own choice. */
const coldSidewaysFactor = 1.25;

export const copySection = (section: Section): Section => eachWall(section, copyWall);

/** A copy at the instant of the last reading. What follows reads such a copy. */
export const sectionNow = (section: Section): Section => eachWall(section, presentOf);

/** Of the coldest point through the thickness. Each end is rounded away from the likely value, never towards it. */
export const coldestBetween = (now: Section): Bounded => bounded(now, (wall) => coldestOf(wall.field));
export const hottestBetween = (now: Section): Bounded => bounded(now, (wall) => hottestOf(wall.field));
export const farFaceBetween = (now: Section): Bounded => bounded(now, (wall) => wall.field.backCelsius);

/** How far apart the ends are because the inside was not known at the start, at most, and since how long in Fourier numbers. */
export function startBand(now: Section, start: SectionStart): { fourier: number; left: number; atMost: Millikelvin } {
  // The slow wall forgets last.
  const { fourier, startLeft: left } = now.coldSlow;
  const apart = start.inside === 'not known' ? Math.abs(start.faceCelsius - now.spec.ambientCelsius) : 0;
  // The slowest mode alone would begin with 4 / pi of the difference.
  return { fourier, left, atMost: Math.ceil(apart * Math.min(1, 1.2733 * left) * 1000) as Millikelvin };
}

/** Slowest time constant, of the slow wall. */
export const sectionTimeConstant = (section: Section): Milliseconds => timeConstantOf(section.coldSlow);

const wallNames = ['likely', 'coldSlow', 'coldQuick', 'hotSlow', 'hotQuick'] as const;
type WallName = (typeof wallNames)[number];

export const wallsOf = (section: Section): readonly Wall[] => wallNames.map((name) => section[name]);

function wallOf(
  spec: SectionSpec,
  { at, faceCelsius, inside }: SectionStart,
  name: WallName,
  losses: LossCases | undefined,
): Wall | Refusal {
  const { shape, steel, ambientCelsius, heaterWattsPerSquareMetre } = spec;
  const band = name === 'likely' ? 0 : name.endsWith('Slow') ? -steel.diffusivityBand : steel.diffusivityBand;
  const end = name === 'likely' ? 'likely' : name.startsWith('cold') ? 'worst' : 'best';
  const wallSpec: WallSpec = {
    shape,
    steel,
    loss: losses?.[end] ?? { convection: 0, emissivity: 0 },
    ambientCelsius,
    conductivityFactor: 1 + band,
    ...(heaterWattsPerSquareMetre === undefined ? {} : { heaterWattsPerSquareMetre }),
  };
  const cold = Math.min(ambientCelsius, faceCelsius);
  const hot = Math.max(ambientCelsius, faceCelsius);
  const unknown = { best: hot, likely: faceCelsius, worst: cold }[end];
  return createWall(wallSpec, {
    at,
    frontCelsius: faceCelsius,
    insideCelsius: inside === 'not known' ? unknown : faceCelsius,
  });
}

/** Where no loss can be named the far probe must go on speaking. */
function farProbeRefused({ spec, likely }: Section, at: Instant, back?: MilliCelsius): Refusal | undefined {
  if (back !== undefined || lossCasesOf(spec.far) !== undefined) return undefined;
  return isBackMeasured(likely, at) || isBridged(likely, at - likely.back.lastAt)
    ? undefined
    : refuse(
        'far side not judged',
        'The probe on the far face is silent, and what the far side takes can not be named.',
      );
}

function bounded(now: Section, of: (wall: Wall) => number): Bounded {
  const values = wallsOf(now).map(of);
  return {
    low: Math.floor(Math.min(...values) * 1000) as MilliCelsius,
    likely: Math.round(of(now.likely) * 1000) as MilliCelsius,
    high: Math.ceil(Math.max(...values) * 1000) as MilliCelsius,
  };
}

/** The same section with each of its walls made anew. */
export const eachWall = (section: Section, make: (wall: Wall) => Wall): Section => ({
  spec: section.spec,
  likely: make(section.likely),
  coldSlow: make(section.coldSlow),
  coldQuick: make(section.coldQuick),
  hotSlow: make(section.hotSlow),
  hotQuick: make(section.hotQuick),
  ...(section.sideways === undefined ? {} : { sideways: copySideways(section.sideways) }),
});
