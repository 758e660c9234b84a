/**
 * The sections of the joint on their way through time: each is driven by the trusted probes on its faces, the coldest
 * of a face, as their readings come. A reading that conduction cannot take is named, never bent; a long gap widens the
 * band to what can have been meanwhile.
 */

import { createFarFace, driveFarFace, type FarFaceDoubt, farFaceDoubt } from '../../conduction/far-face.ts';
import { acrossGap } from '../../conduction/gap.ts';
import type { JointSection } from '../../conduction/joint-sections.ts';
import { isRefusal, type Refusal } from '../../conduction/refusal.ts';
import {
  coldestBetween,
  createSection,
  driveSection,
  type Section,
  type SectionStart,
} from '../../conduction/section.ts';
import type { Instant, MilliCelsius } from '../../measure/quantity.ts';
import type { Probe } from '../../weld/probe.ts';
import type { Scan } from '../../weld/scan.ts';
import { close, open } from '../findings.ts';
import { bandOf } from '../measuring/guard.ts';
import { withUse } from '../places.ts';
import {
  type GoodReading,
  hasBegunWelding,
  isTrusted,
  isTrustedUntilClosed,
  type ProbeState,
  type State,
} from '../state.ts';
import { addColumn } from './section-course.ts';
import type { SectionState } from './section-state.ts';
import type { SectionReason } from './section-status.ts';
import { type SectionUncertainty, sectionUncertainty } from './section-uncertainty.ts';

/** Drives what the scan's probes drive. The probes have taken the scan in already. */
export function driveSections(state: State, scan: Scan): void {
  const isRead = ({ id }: Probe): boolean => scan.values.some(({ probe }) => probe === id);
  for (const each of state.sections) {
    if (each.place.lacks !== undefined) continue;
    const { frontProbes, backProbes } = each.place;
    const front = frontProbes.some(isRead) ? coldestReading(state, frontProbes) : undefined;
    const back = backProbes.some(isRead) ? coldestReading(state, backProbes) : undefined;
    if (front !== undefined || back !== undefined) drive(state, each, scan.measuredAt, front, back);
  }
}

/** Probes of a section that cannot be believed now, beyond those that the procedure lets fail. */
export function missingDrivers(state: State, { frontProbes, backProbes }: JointSection): string[] {
  const unread = (probes: readonly Probe[]): string[] =>
    probes.filter(({ id }) => !isTrustedUntilClosed(state, probeOf(state, id))).map(({ id }) => id);
  const front = unread(frontProbes);
  const back = unread(backProbes);
  if (front.length === 0) return back;
  return [...(front.length > maySpare(state, frontProbes) ? front : []), ...back];
}

/** The air as ambient probes read it now, the coldest of them; undefined where none is believed. */
function airRead(state: State): number | undefined {
  const measured = withUse(state, 'ambient').filter((each) => isTrusted(state, each));
  return measured.length === 0 ? undefined : Math.min(...measured.map((each) => each.good!.temperature / 1000));
}

/** As entered, else as read: without either nothing is known of what the far face loses to. */
export const airKnown = (state: State): number | undefined => state.joint.heating.airCelsius ?? airRead(state);

function drive(state: State, each: SectionState, at: Instant, front?: MilliCelsius, back?: MilliCelsius): void {
  if (each.section === undefined) {
    begin(state, each, at, front);
    return;
  }
  const stepped = each.section.likely.at;
  const refused = driveSection(each.section, at, front, back, airRead(state));
  if (refused?.refused === 'out of order') return;
  if (refused?.refused === 'gap too long') {
    cross(state, each, each.section, at, front);
    return;
  }
  if (refused !== undefined) {
    refuse(state, each, reasonOf(refused), at, front);
    return;
  }
  accept(state, each, at);
  if (each.farFace !== undefined) {
    const { differenceKelvin } = uncertaintyOf(state, each);
    driveFarFace(each.farFace, each.section, at, front, differenceKelvin, airRead(state));
  }
  if (each.section.likely.at === stepped) return;
  step(each, each.section);
  doubt(state, each, each.section);
}

/** After a gap that no straight line bridges: with a wider band, or anew where even that can not be told. */
function cross(state: State, each: SectionState, section: Section, at: Instant, front: MilliCelsius | undefined): void {
  if (front === undefined) return;
  const across = acrossGap(section, at, front);
  if (isRefusal(across)) {
    for (const key of ['section', 'coldest', 'farFace'] as const) delete each[key];
    begin(state, each, at, front);
    return;
  }
  accept(state, each, at);
  each.gap = { from: section.likely.front.lastAt, to: at };
  each.section = across;
  step(each, across);
}

function begin(state: State, each: SectionState, at: Instant, front: MilliCelsius | undefined): void {
  const { shape, steel, farSide, backProbes, band } = each.place;
  const air = airKnown(state);
  if (front === undefined || shape === undefined || steel === undefined || air === undefined) return;
  // A face that is heated too loses nothing that could be named: it is judged by its probes alone.
  const far = state.joint.heating.face === 'both' ? 'colder mass or fluid' : farSide;
  const start: SectionStart = { at, faceCelsius: front / 1000, inside: 'not known' };
  const spec = { shape, steel, far, farProbe: backProbes.length > 0, ambientCelsius: air };
  const made = createSection(band === undefined ? spec : { ...spec, band }, start);
  if (isRefusal(made)) {
    refuse(state, each, reasonOf(made), at, front);
    return;
  }
  accept(state, each, at);
  each.section = made;
  each.start = start;
  if (backProbes.length > 0) each.farFace = createFarFace(made, start);
  step(each, made);
}

function step(each: SectionState, section: Section): void {
  each.coldest = coldestBetween(section);
  addColumn(each.course, section, each.coldest.low);
}

/** A finding while the probe on the far face reads what conduction from the heated one does not allow. */
function doubt(state: State, each: SectionState, section: Section): void {
  const doubted = each.farFace === undefined ? undefined : farFaceDoubt(each.farFace, section);
  // Welding heats from the groove, through both faces alike: that the far one is then too warm casts no doubt on its probe.
  const warmedByWelding = each.doubtKey === undefined && hasBegunWelding(state) && isTooWarm(doubted);
  if (doubted === undefined || warmedByWelding) {
    if (each.doubtKey !== undefined) close(state, each.doubtKey, section.likely.at);
    delete each.doubtKey;
    return;
  }
  if (each.doubtKey !== undefined) return;
  const { since, measured, low, high } = doubted;
  const probe = each.place.backProbes[0]?.id;
  each.doubtKey = open(state, 'far face not as computed', since, {
    part: each.place.part,
    ...(probe === undefined ? {} : { probe }),
    value: measured,
    limit: measured > high ? high : low,
  });
}

const isTooWarm = (doubted: FarFaceDoubt | undefined): boolean =>
  doubted !== undefined && doubted.measured > doubted.high;

function refuse(state: State, each: SectionState, reason: SectionReason, at: Instant, front?: MilliCelsius): void {
  if (each.refused === reason) return;
  accept(state, each, at);
  each.refused = reason;
  if (reason !== 'rises faster than steel' || front === undefined) return;
  const probe = each.place.frontProbes.find(({ id }) => isReading(state, id, front))?.id;
  each.refusedKey = open(state, reason, at, {
    part: each.place.part,
    value: front,
    ...(probe === undefined ? {} : { probe }),
  });
}

function accept(state: State, each: SectionState, at: Instant): void {
  if (each.refusedKey !== undefined) close(state, each.refusedKey, at);
  delete each.refusedKey;
  delete each.refused;
}

function reasonOf({ refused }: Refusal): SectionReason {
  if (refused === 'above the range of the properties' || refused === 'rises faster than steel') return refused;
  return 'no trusted fresh reading';
}

/** The coldest of a face, if all of it that has to be read is read. */
function coldestReading(state: State, probes: readonly Probe[]): MilliCelsius | undefined {
  const trusted = probes.map(({ id }) => probeOf(state, id)).filter((each) => isTrusted(state, each));
  const unread = probes.length - trusted.length;
  if (trusted.length === 0 || (unread > 0 && unread > maySpare(state, probes))) return undefined;
  return Math.min(...trusted.map((each) => lowestOf(state, each.good!))) as MilliCelsius;
}

/** Under a guarded rule what drives a section is lower by the guard band, so that what comes out is proven. */
const lowestOf = (state: State, reading: GoodReading): number => reading.temperature - bandOf(state, reading);

/** Of the readings that drive the section now; kept with it for what is found out of both faces. */
function uncertaintyOf(state: State, each: SectionState): SectionUncertainty {
  const probes = [...each.place.frontProbes, ...each.place.backProbes];
  each.uncertainty = sectionUncertainty(probes.flatMap(({ id }) => probeOf(state, id).good ?? []));
  return each.uncertainty;
}

/** How many of the zone probes the procedure can do without. */
function maySpare(state: State, probes: readonly Probe[]): number {
  const zone = withUse(state, 'zone').length;
  const required = state.joint.procedure?.zonePlacesRequired ?? zone;
  return probes.every(({ use }) => use === 'zone') ? Math.max(0, Math.min(zone - required, probes.length - 1)) : 0;
}

const isReading = (state: State, id: string, front: MilliCelsius): boolean => {
  const { good } = probeOf(state, id);
  return good !== undefined && lowestOf(state, good) === front;
};

const probeOf = (state: State, id: string): ProbeState => state.probes.find((each) => each.probe.id === id)!;
