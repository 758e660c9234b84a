/**
 * Takes scans in and tells which probes can be believed. A bad value is never dropped: it ends trust in the
 * probe after three periods, becomes a finding with its cause, and the place is then not judged.
 */
import { after, type Instant } from '../measure/quantity.ts';
import type { Quality, Scan, ScanValue } from '../weld/scan.ts';
import type { FindingKind } from './finding-kind.ts';
import { close, open, remove } from './findings.ts';
import { judgedReading } from './measuring/judged-reading.ts';
import { rules } from './rules.ts';
import { freshFor, type ProbeState, type State } from './state.ts';
import { watchWarming } from './trend.ts';

/** Takes every value of the scan in. Values older than the newest of their probe change nothing. */
export function takeScan(state: State, scan: Scan): void {
  state.firstScanAt ??= scan.measuredAt;
  for (const [index, value] of scan.values.entries()) {
    // Boards send their channels in one order, which mostly is that of the joint.
    const beside = state.probes[index];
    const probe =
      beside?.probe.id === value.probe ? beside : state.probes.find((each) => each.probe.id === value.probe);
    if (probe === undefined || (probe.lastAt !== undefined && scan.measuredAt <= probe.lastAt)) continue;
    if (isPlausible(value)) takeGood(state, probe, value, scan.measuredAt);
    else takeBad(state, probe, value, scan.measuredAt);
    probe.lastAt = scan.measuredAt;
  }
  const shorter = state.shorterPeriods[scan.board];
  if (shorter !== undefined) {
    state.boardPeriods[scan.board] = shorter;
    delete state.shorterPeriods[scan.board];
  }
}

/** Opens a trouble for each probe that has had no good reading for three periods. */
export function settleProbes(state: State): void {
  const { firstScanAt } = state;
  if (firstScanAt === undefined) return;
  for (const probe of state.probes) {
    if (probe.troubleKey !== undefined || state.now - lastGoodAt(probe, firstScanAt) <= freshFor(state, probe))
      continue;
    openTrouble(state, probe, firstScanAt);
  }
}

/** When a probe turns stale if nothing comes in. */
export function probeDue(state: State): Instant[] {
  const { firstScanAt } = state;
  if (firstScanAt === undefined) return [];
  const due: Instant[] = [];
  for (const probe of state.probes)
    if (probe.troubleKey === undefined) due.push(after(lastGoodAt(probe, firstScanAt), freshFor(state, probe) + 1));
  return due;
}

const lastGoodAt = (probe: ProbeState, firstScanAt: Instant): Instant => probe.good?.at ?? firstScanAt;

const isPlausible = (value: ScanValue): boolean =>
  value.quality === 'good' && value.temperature !== undefined && value.temperature >= rules.partLowestMilliCelsius;

function takeGood(state: State, probe: ProbeState, value: ScanValue, at: Instant): void {
  const broken =
    probe.badSince !== undefined || probe.goodSince === undefined || at - probe.good!.at > freshFor(state, probe);
  if (broken) probe.goodSince = at;
  if (probe.troubleByLink) tellHidden(state, probe, at);
  probe.good = judgedReading(state, probe.probe, at, value.temperature!);
  probe.lastQuality = 'good';
  if (probe.badSince !== undefined) {
    delete probe.badSince;
    delete probe.wanderedOff;
  }
  keepForTrend(probe);
  if (probe.troubleKey === undefined) return;
  if (probe.troubleByLink && isStale(state, probe, at)) {
    // Old when it came: it ends no silence, and no run of good readings has begun with it.
    delete probe.goodSince;
    return;
  }

  const intermittent = probe.troubleKind === 'intermittent';
  if (intermittent && at - probe.goodSince! < rules.steadyFor) return;
  close(state, probe.troubleKey, probe.goodSince!);
  // A lost link silences a whole board; that says nothing of the probe, so it does not count as coming and going.
  if (!probe.troubleByLink) {
    probe.recoveredAt = probe.goodSince!;
    probe.earlierTroubleFrom = state.findings.find((each) => each.key === probe.troubleKey)?.from ?? at;
  }
  endTrouble(probe);
}

/** A trouble that began and ended while nothing came, as readings that came all at once later say, is told all the same. */
function tellHidden(state: State, probe: ProbeState, at: Instant): void {
  const since = probe.badSince;
  if (since === undefined || probe.good === undefined || at - probe.good.at <= freshFor(state, probe)) return;
  close(state, open(state, kindOf(probe), since, { probe: probe.probe.id }), at);
  probe.recoveredAt = at;
  probe.earlierTroubleFrom = since;
}

/** So old already when it came that it tells nothing of now: the station stood still, or a link held it back. */
const isStale = (state: State, probe: ProbeState, at: Instant): boolean => state.now - at > freshFor(state, probe);

function takeBad(state: State, probe: ProbeState, value: ScanValue, at: Instant): void {
  if (probe.troubleByLink && !isStale(state, probe, at)) {
    // The link is back and the probe is not: that is a trouble of its own, told as such after three periods.
    close(state, probe.troubleKey!, at);
    endTrouble(probe);
  }
  if (probe.badSince === undefined) {
    probe.badSince = at;
    // Good readings that walked out of what a part can be, against values that were never believable.
    probe.wanderedOff =
      value.quality === 'good' && probe.good !== undefined && at - probe.good.at <= freshFor(state, probe);
  }
  probe.lastQuality = value.quality === 'good' ? 'out of range' : value.quality;
}

function openTrouble(state: State, probe: ProbeState, firstScanAt: Instant): void {
  const byLink = probe.lastAt === undefined || state.now - probe.lastAt > freshFor(state, probe);
  const from = probe.badSince ?? lastGoodAt(probe, firstScanAt);
  const comesBack =
    !byLink && probe.recoveredAt !== undefined && state.now - probe.recoveredAt <= rules.recurrenceWithin;
  probe.troubleByLink = byLink;
  // The run of good readings ended with the trouble, even where its cause was only that they came late.
  delete probe.goodSince;
  if (comesBack) {
    const since = probe.earlierTroubleFrom!;
    const absorbed = probeTroubles;
    remove(state, (each) => each.probe !== probe.probe.id || each.from < since || !absorbed.has(each.kind));
    probe.troubleKind = 'intermittent';
    probe.troubleKey = open(state, 'intermittent', since, { probe: probe.probe.id });
    return;
  }
  probe.troubleKind = byLink ? 'silent' : kindOf(probe);
  probe.troubleKey = open(state, probe.troubleKind, from, { probe: probe.probe.id });
}

function endTrouble(probe: ProbeState): void {
  delete probe.troubleKey;
  delete probe.troubleKind;
  delete probe.troubleByLink;
}

export const probeTroubles: ReadonlySet<FindingKind> = new Set<FindingKind>([
  'silent',
  'intermittent',
  'running away',
  'out of range',
  'open circuit',
  'short circuit',
  'cold junction out of range',
]);

const kindByQuality: { readonly [quality in Exclude<Quality, 'good'>]: FindingKind } = {
  open: 'open circuit',
  'short to ground': 'short circuit',
  'short to supply': 'short circuit',
  'cold junction out of range': 'cold junction out of range',
  'out of range': 'out of range',
  'no reading': 'silent',
};

function kindOf(probe: ProbeState): FindingKind {
  if (probe.wanderedOff) return 'running away';
  const quality = probe.lastQuality;
  return quality === undefined || quality === 'good' ? 'silent' : kindByQuality[quality];
}

/** Thins the good readings to the trend's spacing and drops those older than its window. */
function keepForTrend(probe: ProbeState): void {
  const { at, temperature } = probe.good!;
  const newestAt = probe.recent.at(-2);
  if (newestAt === undefined || at - newestAt >= rules.trendSpacing) probe.recent.push(at, temperature);
  const kept = probe.recent.findIndex((value, index) => index % 2 === 0 && at - value <= rules.trendWindow);
  if (kept > 0) probe.recent.splice(0, kept);
  watchWarming(probe);
}
