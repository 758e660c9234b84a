/**
 * A probe on the far face, watched: the same place is carried along driven by the front alone, and where the probe reads
 * for long outside what that allows, probe or contact is suspect. Beside it, what the far face gives to the air. Plain
 * data, changed in place by `driveFarFace`; where a run is split changes nothing.
 */
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import { bounds } from './bounds.ts';
import { gatherLoss, type LossSums, noLossSums } from './far-loss.ts';
import { isRefusal, type Refusal, refuse } from './refusal.ts';
import {
  copySection,
  createSection,
  driveSection,
  farFaceBetween,
  type Section,
  type SectionStart,
  sectionNow,
  sectionTimeConstant,
} from './section.ts';
import { isBackMeasured } from './wall.ts';

export interface FarFace {
  /** Driven by the front alone; absent where no loss of the far face can be named. */
  alone?: Section;
  loss: LossSums;
  /** End of the last step that was taken in. */
  at: Instant;
  outside?: Outside;
}

/** What is measured on the far face, the ends between which it would have to lie, and since when it does not. */
export interface Outside {
  readonly measured: MilliCelsius;
  readonly low: MilliCelsius;
  readonly high: MilliCelsius;
  readonly since: Instant;
}

export type FarFaceDoubt = Refusal & Outside;

/** For a section with a probe on its far face, and from the same start. */
export function createFarFace(section: Section, start: SectionStart): FarFace {
  const far: FarFace = { loss: noLossSums(section.likely.field.backCelsius), at: start.at };
  begin(far, section, start);
  return far;
}

/**
 * Takes in what `driveSection` has just taken into the section: the reading of the front, and the air where it is told.
 * The measured far face may be `uncertaintyKelvin` outside the two ends before it counts as outside.
 */
export function driveFarFace(
  far: FarFace,
  section: Section,
  at: Instant,
  front: MilliCelsius | undefined,
  uncertaintyKelvin: number,
  ambientCelsius?: number,
): Refusal | undefined {
  if (!(Number.isFinite(uncertaintyKelvin) && uncertaintyKelvin >= 0))
    return refuse('not a number', 'The uncertainty of the readings must be a number of kelvin, not below 0.');
  if (far.alone !== undefined) {
    const refused = driveSection(far.alone, at, front, undefined, ambientCelsius);
    // Its own mean temperature is another, and so the gap that it may bridge: then it begins anew.
    if (refused?.refused === 'gap too long' && front !== undefined)
      begin(far, section, { at, faceCelsius: front / 1000, inside: 'not known' });
  }
  const { likely } = section;
  if (likely.at === far.at) return undefined;
  far.at = likely.at;
  gatherLoss(far.loss, likely);
  compare(far, section, uncertaintyKelvin * 1000);
  return undefined;
}

/** A named value with the numbers once it has been outside for three time constants; undefined before. */
export function farFaceDoubt({ outside, at }: FarFace, section: Section): FarFaceDoubt | undefined {
  if (outside === undefined) return undefined;
  if (at - outside.since <= bounds.doubtedAfterTimeConstants * sectionTimeConstant(section)) return undefined;
  const { measured, low, high } = outside;
  return {
    ...refuse(
      'probe or contact suspect',
      `The far face reads ${measured / 1000} °C; by the front it must lie between ${low / 1000} and ${high / 1000} °C.`,
    ),
    ...outside,
  };
}

export const copyFarFace = (far: FarFace): FarFace => ({
  ...far,
  ...(far.alone !== undefined && { alone: copySection(far.alone) }),
  loss: { ...far.loss },
});

function begin(far: FarFace, section: Section, start: SectionStart): void {
  const alone = createSection({ ...section.spec, farProbe: false }, start);
  delete far.outside;
  if (isRefusal(alone)) delete far.alone;
  else far.alone = alone;
}

function compare(far: FarFace, { likely }: Section, uncertainty: number): void {
  const { alone } = far;
  const { since } = far.outside ?? { since: far.at };
  delete far.outside;
  if (alone === undefined || !isBackMeasured(likely)) return;
  const { low, high } = farFaceBetween(alone.likely.at === far.at ? alone : sectionNow(alone));
  const measured = Math.round(likely.field.backCelsius * 1000) as MilliCelsius;
  if (measured < low - uncertainty || measured > high + uncertainty) far.outside = { measured, low, high, since };
}
