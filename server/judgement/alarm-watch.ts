/** What is watched for alarms now: each with whether it is wrong, whether it is right again past its deadband, and whether its phase mutes it. */
import type { MilliCelsius } from '../measure/quantity.ts';
import { isKeptForPostHeating, isWeldingComplete } from './after/after-welding.ts';
import { alarmRules, breakNearItsEnd, breakNoLongerNear } from './alarm-rules.ts';
import type { Alarm, AlarmKind, Suppression } from './assessment.ts';
import { boardsNow } from './boards.ts';
import { breakByTrend } from './break-by-trend.ts';
import { keepsMaximum, keepsMinimum } from './compare.ts';
import { sectionStanding } from './inside/through-thickness.ts';
import { bandOf } from './measuring/guard.ts';
import { bandAt, hottestOf, type MinimumNow, minimumNow, onPart } from './places.ts';
import { hasBegunWelding, isPassRunning, isRead, type State } from './state.ts';

export interface Watched {
  readonly key: string;
  readonly kind: AlarmKind;
  /** Wrong now. */
  readonly active: boolean;
  /** Right again, past the deadband. Both are false in between, and while it is not known. */
  readonly clear: boolean;
  readonly muted?: Suppression | undefined;
  /** Where, and the numbers. */
  readonly about: Partial<Pick<Alarm, 'probe' | 'board' | 'part' | 'probes' | 'value' | 'limit'>>;
}

/** Causes stand before what follows from them. */
export function watchedNow(state: State): Watched[] {
  const minimum = minimumNow(state);
  return [
    ...boardsSilent(state),
    ...belowMinimum(state, minimum),
    ...throughThickness(state),
    ...aboveHighest(state),
    ...breaks(state, minimum),
    ...probes(state),
    ...farFaces(state),
  ];
}

function boardsSilent(state: State): Watched[] {
  return boardsNow(state).map(({ board, silent, probes }) => ({
    key: `board/${board}`,
    kind: 'board silent',
    active: silent,
    clear: !silent,
    muted: beforeHeating(state),
    about: { board, probes },
  }));
}

function belowMinimum(state: State, minimum: MinimumNow): Watched[] {
  const limit = state.limits.preheatMinimum;
  return limit === undefined ? [] : [cold(state, 'below minimum', minimum, limit, { muted: mutedWhileCold(state) })];
}

/** Its lowest possible counts, as everywhere. Only where the procedure asks for it: elsewhere it is shown and nothing hangs on it. */
function throughThickness(state: State): Watched[] {
  const limit = state.limits.preheatMinimum;
  if (limit === undefined || state.limits.throughThicknessHold === undefined) return [];
  const standings = state.sections.map((each) => ({ each, standing: sectionStanding(state, each).state }));
  const coldest = standings
    .filter(({ standing }) => standing !== 'not judged')
    .map(({ each }) => each)
    .sort((a, b) => a.coldest!.low - b.coldest!.low)[0];
  const { deadbandMillikelvin } = alarmRules['through thickness lost'];
  const isClear = (low: MilliCelsius): boolean => low >= limit + deadbandMillikelvin;
  return [
    {
      key: 'through thickness lost',
      kind: 'through thickness lost',
      active: standings.some(({ standing }) => standing === 'not met'),
      clear: standings.every(({ each, standing }) => standing === 'met' && isClear(each.coldest!.low)),
      muted: mutedWhileCold(state),
      about: { limit, ...(coldest === undefined ? {} : { part: coldest.place.part, value: coldest.coldest!.low }) },
    },
  ];
}

function aboveHighest(state: State): Watched[] {
  const limit = state.limits.highest;
  if (limit === undefined) return [];
  const kind = 'above highest temperature';
  const hottest = hottestProven(state);
  const { deadbandMillikelvin } = alarmRules[kind];
  return [
    {
      key: kind,
      kind,
      active: hottest !== undefined && keepsMaximum(hottest.temperature, limit, bandAt(state, hottest)) === 'broken',
      clear:
        hottest !== undefined &&
        hottest.temperature <= limit - deadbandMillikelvin &&
        hasCooledWhereItRose(state, kind, (limit - deadbandMillikelvin) as MilliCelsius),
      about: { limit, ...(hottest === undefined ? {} : { probe: hottest.probe, value: hottest.temperature }) },
    },
  ];
}

/** A break is over when the arc burns again: then the minimum itself is watched. */
function breaks(state: State, minimum: MinimumNow): Watched[] {
  const limit = state.limits.maintenanceMinimum;
  if (limit === undefined) return [];
  const isBreak = hasBegunWelding(state) && !isPassRunning(state) && !isWeldingComplete(state);
  const ahead = isBreak ? breakByTrend(state, minimum) : undefined;
  const kind = 'break near its end';
  return [
    cold(state, 'maintenance temperature lost', minimum, limit, { only: isBreak }),
    {
      key: kind,
      kind,
      active: ahead !== undefined && ahead.time <= breakNearItsEnd,
      clear: ahead === undefined || ahead.time > breakNoLongerNear,
      about: {
        limit,
        ...(ahead === undefined ? {} : { probe: ahead.probe, value: minimum.governing!.temperature }),
      },
    },
  ];
}

function probes(state: State): Watched[] {
  return state.probes
    .filter(({ probe }) => probe.use !== 'spare')
    .map(({ probe, troubleKey, troubleKind, distrusted }) => {
      // Whoever took it out of the judgement knows of it.
      const troubled = troubleKey !== undefined && distrusted === undefined;
      const key = `probe/${probe.id}`;
      const standing = troubled ? undefined : state.alarms.find((alarm) => alarm.key === key);
      const kind = standing?.kind ?? (troubled && troubleKind === 'silent' ? 'probe silent' : 'probe fault');
      const about = { probe: probe.id, board: probe.board };
      return { key, kind, active: troubled, clear: !troubled, muted: beforeHeating(state), about };
    });
}

function farFaces(state: State): Watched[] {
  if (state.limits.throughThicknessHold === undefined) return [];
  return state.sections
    .filter(({ place }) => place.backProbes.length > 0)
    .map(({ place, doubtKey }) => {
      const { part, backProbes } = place;
      const active = doubtKey !== undefined;
      const about = { part, probe: backProbes[0]!.id };
      return { key: `far face/${part}`, kind: 'far face not as computed', active, clear: !active, about };
    });
}

function cold(
  state: State,
  kind: 'below minimum' | 'maintenance temperature lost',
  { governing, reason, below }: MinimumNow,
  limit: MilliCelsius,
  { muted, only = true }: { readonly muted?: Suppression | undefined; readonly only?: boolean },
): Watched {
  const { deadbandMillikelvin } = alarmRules[kind];
  const numbers = governing === undefined ? {} : { probe: governing.probe, value: governing.temperature };
  return {
    key: kind,
    kind,
    // Within the guard band neither is proven: it neither rings nor falls silent.
    active:
      only &&
      governing !== undefined &&
      (keepsMinimum(governing.temperature, limit, bandAt(state, governing)) === 'broken' ||
        (kind === 'below minimum' && governing.bound === 'below' && below)),
    // That the coldest probe is lost does not make the part warmer.
    clear:
      !only ||
      (governing !== undefined &&
        reason !== 'no trusted fresh reading' &&
        governing.temperature >= limit + deadbandMillikelvin),
    muted,
    about: { limit, ...numbers },
  };
}

/** The one that is hottest beyond its guard band, if any is above; else the hottest. */
function hottestProven(state: State): ReturnType<typeof hottestOf> {
  const limit = state.limits.highest!;
  const all = onPart(state);
  const above = all.filter(
    (each) =>
      each.good !== undefined && keepsMaximum(each.good.temperature, limit, bandOf(state, each.good)) === 'broken',
  );
  return hottestOf(state, above) ?? hottestOf(state, all);
}

const beforeHeating = ({ underway }: State): Suppression | undefined => (underway ? undefined : 'before heating');

/**
 * A part that is heated for the first time is too cold by nature; in a break that has a limit of its own, that limit
 * counts; and after the last arc a part may cool, unless it has to stay warm until post-heating begins.
 */
function mutedWhileCold(state: State): Suppression | undefined {
  if (!state.everReady && !hasBegunWelding(state)) return 'first heating';
  if (isWeldingComplete(state)) return isKeptForPostHeating(state) ? undefined : 'after welding';
  const { maintenanceMinimum } = state.limits;
  const keptWarm = maintenanceMinimum !== undefined && hasBegunWelding(state) && !isPassRunning(state);
  return keptWarm ? 'break kept warm' : undefined;
}

/** That the hottest probe is lost does not make the part colder; one that a person has taken out is not waited for. */
function hasCooledWhereItRose(state: State, key: string, to: MilliCelsius): boolean {
  const where = state.alarms.find((alarm) => alarm.key === key)?.probe;
  const probe = state.probes.find((each) => each.probe.id === where);
  if (probe === undefined) return true;
  return isRead(state, probe) ? probe.good!.temperature <= to : probe.distrusted !== undefined;
}
