/**
 * The judge's numbers, in one place, each with its source. They are part of the rules that a record is
 * judged by: a change here changes verdicts, and the rules version in a record's first entry says which held.
 */
import { minutes, seconds } from '../measure/quantity.ts';
import type { Severity } from './assessment.ts';
import type { FindingKind } from './finding-kind.ts';

export const rules = {
  /** A reading is fresh while it is younger than this many periods. Own choice. */
  freshPeriods: 3,
  /** ISO 13916 practice (from memory, long-standing EN and BS text): 2 min per 25 mm after the heat is off. */
  waitPerMillimetre: 4_800,
  /** A gap up to this long pauses the soak, a longer one voids it. Own choice. */
  gapPauses: seconds(60),
  /** When a heated face that still rises betrays that the heat is not off, and by how much in the last half of that time. Own choice. */
  risingCheckedAfter: seconds(60),
  risingComparedFrom: seconds(30),
  risingMillikelvin: 500,
  /** Oldest reading that may stand for the interpass temperature at the arc: "immediately before" in ISO 13916. Own choice of the seconds. */
  interpassReadingAge: seconds(10),
  /** A contact reading takes a hand: it may be this old. Own choice. */
  contactReadingAge: seconds(60),
  /** A reading by hand beside a probe, unless the procedure says how often: once a shift of 8 h. Own choice. */
  twinReadingHours: 8,
  /** Warm enough for it where no minimum is stated; else the minimum. A comparison in the cold shows nothing. Own choice. */
  twinWarmMilliCelsius: 60_000,
  /** Above this thickness the temperature has to exist over 75 mm in every direction (ISO 13916). */
  thickMillimetres: 50,
  zoneDistanceMillimetres: 75,
  /** A limit counts as passed once this long on its wrong side, so that one spike of arc noise is no verdict. Own choice. */
  confirmFor: seconds(5),
  /** Colder than any shop floor: a probe that reads below is not reading the part. */
  partLowestMilliCelsius: -40_000,
  /** A second failure within this time of the first makes it intermittent; steady this long, it is believed again. Own choice. */
  recurrenceWithin: minutes(30),
  steadyFor: minutes(5),
  /** Trend: change over up to this long, at least over the shorter. */
  trendWindow: minutes(3),
  trendAtLeast: seconds(30),
  trendSpacing: seconds(10),
  /** A rise slower than this gives no forecast, thousandths of a kelvin per minute. */
  trendWorthTelling: 200,
  /**
   * Over the trend's window: a rise that nobody has to enter as heating, and one that still is; between them it stays what it
   * was, so that noise about a bound is no change. Thousandths of a kelvin. Own choice: several times the noise of a good channel.
   */
  warmingFrom: 1_000,
  warmingWhile: 300,
  /** What a probe may read off the part without being wrong: wire of IEC 60584-1 class 2 (2.5 K up to 333 degrees, type K). */
  probeUncertaintyKelvin: 2.5,
  /** Two such probes against each other: the root of the sum of squares. */
  farFaceUncertaintyKelvin: 3.536,
  /** Points of a profile, and of a column of the map of depth and time; columns kept; first time between two of them. */
  profilePoints: 21,
  courseDepths: 11,
  courseColumnsMaximum: 240,
  courseSpacing: seconds(30),
  /** Slowest that heat spreads in a steel that is welded, square metres per second (austenitic at 100 degrees: 4.25e-6). */
  slowestDiffusivity: 4.2e-6,
  /** How long heat takes to be felt at a probe under the heater, at the latest. Own choice. */
  feltUnderHeaterAfter: minutes(2),
  /** So long before and after a tip was held in a hand its readings may look like those of a faulty one. Own choice. */
  handFeltFor: minutes(3),
  /** And so long after the check a suspicion of then may still end. Own choice. */
  handLookedFor: minutes(30),
  /** A rate of heating or cooling is the change over this time, looked at this often. Own choice. */
  rateWindow: minutes(15),
  rateMarkedEvery: seconds(60),
  /** A place that was last read below this is not asked how fast it cools: probes come off a cold joint. Own choice. */
  rateAskedAbove: 60_000,
  /** Readings within one continuous pass that are kept with it. */
  roundsKept: 500,
  /** An arc signal counts once it was on this long, so that a spike proposes nothing. Own choice. */
  arcConfirmed: seconds(10),
  /** Electrode changed, slag taken off: a pause up to this long is within one stretch of welding. Own choice. */
  arcPause: minutes(2),
  /** So long without a pass entered is a finding: time to strike the arc, look up and press the button. Own choice. */
  arcWithoutPass: seconds(60),
  /** Out for so long in a running pass: its end is proposed. Own choice. */
  arcOut: minutes(3),
  /** How far back an act or a late reading may lie and still be judged in its place. */
  lookBack: minutes(30),
  /** An act told so long after it happened is judged in its place too: the whole record is then judged anew. Own choice, a day. */
  toldWithin: minutes(24 * 60),
  keepStateEvery: minutes(5),
} as const;

/** Expanded uncertainty as it is stated: twice the standard one, about 95 % of readings (GUM). */
export const expandedFactor = 2;

export const severities: { readonly [kind in FindingKind]: Severity } = {
  silent: 'remark',
  intermittent: 'remark',
  'running away': 'remark',
  'out of range': 'remark',
  'open circuit': 'remark',
  'short circuit': 'remark',
  'cold junction out of range': 'remark',
  'below minimum at pass start': 'nonconformity',
  'below minimum during pass': 'nonconformity',
  'minimum not judged': 'not judged',
  'soak not met': 'nonconformity',
  'soak not judged': 'not judged',
  'through thickness not met': 'nonconformity',
  'through thickness not held': 'nonconformity',
  'through thickness not judged': 'not judged',
  'rises faster than steel': 'remark',
  'far face not as computed': 'remark',
  'interpass above maximum': 'nonconformity',
  'interpass not judged': 'not judged',
  'above highest temperature': 'nonconformity',
  uneven: 'nonconformity',
  'minimum lost before post-heating': 'nonconformity',
  'minimum before post-heating not judged': 'not judged',
  'post-heating not met': 'nonconformity',
  'post-heating not judged': 'not judged',
  'post-heating above maximum': 'nonconformity',
  'post-heating maximum not judged': 'not judged',
  'heated too fast': 'nonconformity',
  'heating rate not judged': 'not judged',
  'cooled too fast': 'nonconformity',
  'cooling rate not judged': 'not judged',
  'uncovered too warm': 'nonconformity',
  'uncovering not judged': 'not judged',
  'covered cooling not entered': 'not judged',
  'not cooled before heat treatment': 'nonconformity',
  'cooling before heat treatment not judged': 'not judged',
  'heat treatment late': 'nonconformity',
  'tested before the waiting time': 'nonconformity',
  'probe spot not examined': 'not judged',
  'indication at a probe spot': 'nonconformity',
  'heat off but still rising': 'remark',
  'maintenance temperature lost': 'remark',
  'inspection after a break not shown': 'not judged',
  'indication after a break': 'remark',
  'gone on over an indication': 'nonconformity',
  'cold break not judged': 'not judged',
  'check not answered': 'not judged',
  'check not in order': 'nonconformity',
  'check only warns': 'remark',
  'hold point not released': 'nonconformity',
  'witness point passed': 'remark',
  'too few zone probes': 'not judged',
  'no minimum to judge': 'not judged',
  'source not verified': 'remark',
  'procedure below calculation': 'not judged',
  'extended range not accepted': 'not judged',
  'recording interrupted': 'remark',
  'probe distrusted': 'remark',
  'highest temperature not judged': 'not judged',
  'evenness not judged': 'not judged',
  'calibration overdue': 'remark',
  'calibration not known': 'remark',
  'verification failed': 'remark',
  'calibration not shown': 'not judged',
  'within uncertainty': 'remark',
  'within guard band': 'not judged',
  'twin reading apart': 'remark',
  'probe suspect': 'remark',
  'ambient check not made': 'remark',
  'ambient check failed': 'remark',
  'ambient check not shown': 'not judged',
  'heat input below minimum': 'nonconformity',
  'heat input above maximum': 'nonconformity',
  'heat input below basis': 'not judged',
  'heat input not given': 'not judged',
  'pass corrected': 'remark',
  'arc without pass': 'not judged',
  'interpass above maximum during pass': 'nonconformity',
  'interpass not judged during pass': 'not judged',
  'entry outside role': 'remark',
  // A procedure or a contract says whether it matters here; the temperatures are what is judged.
  'welder not qualified': 'remark',
  'qualification lapsed': 'remark',
  'below qualified preheat': 'nonconformity',
  'interpass above qualified': 'nonconformity',
  'qualified interpass open': 'not judged',
  'qualified range not judged': 'not judged',
};
