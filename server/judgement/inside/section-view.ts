/** One section as the screen and the report have it: its numbers, and whether they are judged. */
import {
  coldestBetween,
  farFaceBetween,
  type Section,
  sectionTimeConstant,
  startBand,
  wallsOf,
} from '../../conduction/section.ts';
import { isBackMeasured } from '../../conduction/wall.ts';
import type { MilliCelsius, Millikelvin } from '../../measure/quantity.ts';
import { rules } from '../rules.ts';
import type { State } from '../state.ts';
import { profileOf } from './section-course.ts';
import { farLossFound, type SectionState } from './section-state.ts';
import type { SectionStatus } from './section-status.ts';
import { sectionStanding } from './through-thickness.ts';

export function sectionStatus(state: State, each: SectionState): SectionStatus {
  const { place, section } = each;
  const { state: judged, reason, value, limit } = sectionStanding(state, each);
  return {
    part: place.part,
    depthMillimetres: place.depthMillimetres,
    front: place.front,
    frontProbes: place.frontProbes.map(({ id }) => id),
    backProbes: place.backProbes.map(({ id }) => id),
    farSide: place.farSide,
    farMeasured: section !== undefined && isBackMeasured(section.likely),
    ...(place.steel === undefined || place.steelBy === undefined
      ? {}
      : {
          steel: {
            name: place.steel.name,
            source: place.steel.source,
            status: place.steel.status,
            band: place.steel.diffusivityBand,
            by: place.steelBy,
          },
        }),
    state: judged,
    ...(reason === undefined ? {} : { reason }),
    ...(value === undefined ? {} : { value }),
    ...(limit === undefined ? {} : { limit }),
    ...(section === undefined ? {} : numbersOf(each, section)),
  };
}

function numbersOf(each: SectionState, section: Section): Partial<SectionStatus> {
  const { start, gap, farFace, doubtKey } = each;
  const lossFound = farLossFound(each);
  const profiles = wallsOf(section).map((wall) => profileOf(wall, rules.profilePoints));
  const likely = profileOf(section.likely, rules.profilePoints);
  const at = (pick: (...values: number[]) => number): MilliCelsius[] =>
    likely.map((_, point) => pick(...profiles.map((each) => each[point]!)) as MilliCelsius);
  const left = start === undefined ? undefined : startBand(section, start);
  return {
    at: section.likely.at,
    coldest: coldestBetween(section),
    farFace: farFaceBetween(section),
    frontFace: likely[0]!,
    profile: { low: at(Math.min), likely, high: at(Math.max) },
    ...(left === undefined ? {} : { startLeft: { part: left.left, atMost: left.atMost } }),
    ...(gap === undefined ? {} : { gap }),
    ...(section.sideways === undefined
      ? {}
      : { leavesSideways: Math.round(section.sideways.leaving * 60_000) as Millikelvin }),
    timeConstant: sectionTimeConstant(section),
    ...(lossFound === undefined ? {} : { lossFound }),
    ...(doubtKey === undefined || farFace?.outside === undefined ? {} : { doubted: farFace.outside }),
  };
}
