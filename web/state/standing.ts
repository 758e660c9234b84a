/**
 * The one sentence at the top of a joint, and whether it may be believed. What the judge says is shown only
 * while the page hears the station, the station records, and every required place has a reading younger
 * than three periods by the station's clock. Otherwise the screen says that it does not know, and since when.
 */
import type { Assessment } from '../../server/judgement/assessment.ts';
import type { Instant, Milliseconds } from '../../server/measure/quantity.ts';
import type { StationView } from '../../server/screen/contract.ts';
import { conditionText } from '../../server/wording/condition.ts';
import { inside, listText } from '../../server/wording/list.ts';
import { readinessSentence, unmetConditions } from '../../server/wording/readiness.ts';
import { durationText } from '../../server/wording/time.ts';
import { blindBounds } from '../feed/bounds.ts';
import type { Contact } from '../feed/contact.ts';
import type { LiveJoint } from '../feed/live-joint.ts';
import { blindSentence } from './blindness.ts';

/**
 * ready: all conditions met. waiting: something is missing. running: an arc burns. outside: it burns though a
 * limit is not kept. unknown: do not rely on this screen. closed: the record is finished.
 */
export type Tone = 'ready' | 'waiting' | 'running' | 'outside' | 'unknown' | 'closed';

export interface Standing {
  readonly tone: Tone;
  /** The sentence up to its first colon, and the rest; together they are the sentence. */
  readonly head: string;
  readonly rest: string;
  /** What may be done about it, where it is not the readings themselves. */
  readonly advice?: string;
}

export const standingOf = (live: LiveJoint, contact: Contact, station: StationView | undefined): Standing => {
  const { assessment } = live;
  if (contact.kind !== 'live') return blind(contact);
  if (assessment.phase !== 'closed' && station?.recording === false) return notRecording(station);
  const unjudged = contact.now - assessment.at;
  if (assessment.phase !== 'closed' && unjudged > blindBounds.notJudged) return notJudged(unjudged);
  const silent = assessment.phase === 'closed' ? [] : staleRequired(live, contact.now);
  if (silent.length > 0 && (assessment.ready || assessment.phase === 'pass running')) return stale(silent);
  return said(readinessSentence(assessment, live.outlook), toneOf(assessment));
};

export interface StalePlace {
  readonly probe: string;
  /** Absent if nothing ever came. */
  readonly ageMilliseconds?: number;
}

/** Required places whose newest good reading is not younger than three periods. */
export const staleRequired = ({ assessment, newest, periodMilliseconds }: LiveJoint, now: Instant): StalePlace[] =>
  assessment.probes
    .filter((probe) => probe.required)
    .flatMap(({ probe }): StalePlace[] => {
      const reading = newest[probe];
      if (reading === undefined) return [{ probe }];
      const age = now - reading.at;
      return age >= blindBounds.oldPeriods * periodMilliseconds ? [{ probe, ageMilliseconds: Math.max(0, age) }] : [];
    });

const blind = (contact: Exclude<Contact, { kind: 'live' }>): Standing =>
  contact.kind === 'blind'
    ? { tone: 'unknown', head: blindSentence(contact.forMilliseconds), rest: '', advice: blindAdvice }
    : contact.forMilliseconds < blindBounds.noWord
      ? { tone: 'unknown', head: 'Not known yet', rest: ': waiting for the first word from the station' }
      : { tone: 'unknown', head: blindSentence(contact.forMilliseconds), rest: '', advice: blindAdvice };

const blindAdvice =
  'What stands below is old. Measure by hand before you start or go on. Check that this device has its network and that the station runs; the page comes back by itself.';

const notRecording = ({ notRecordingBecause }: StationView): Standing => ({
  tone: 'unknown',
  head: 'Not recording',
  rest: `: ${notRecordingBecause === undefined || notRecordingBecause === '' ? 'what happens now is not kept' : notRecordingBecause}`,
  advice: 'Nothing that happens now is kept. Write readings and passes down by hand until it records again.',
});

const notJudged = (forMilliseconds: number): Standing => ({
  tone: 'unknown',
  head: 'Not known',
  rest: `: the station has not judged this joint for ${durationText(forMilliseconds as Milliseconds)}`,
  advice: 'Measure by hand before you start or go on. See whether the station is overloaded; load the page again.',
});

const stale = (silent: readonly StalePlace[]): Standing => {
  const oldest = Math.max(...silent.map((place) => place.ageMilliseconds ?? 0));
  return {
    tone: 'unknown',
    head: 'Not known',
    rest: `: no fresh reading at ${listText(silent.map((place) => place.probe))} for ${durationText(oldest as Milliseconds)}`,
    advice: 'Measure by hand before you start or go on.',
  };
};

const said = (sentence: string, tone: Tone): Standing => {
  const colon = sentence.indexOf(':');
  if (colon < 0) return { tone, head: sentence, rest: '' };
  return { tone, head: sentence.slice(0, colon), rest: sentence.slice(colon) };
};

const toneOf = (assessment: Assessment): Tone => {
  if (assessment.phase === 'closed') return 'closed';
  if (assessment.phase === 'pass running') return isOutside(assessment) ? 'outside' : 'running';
  return assessment.ready ? 'ready' : 'waiting';
};

/** Soak and interpass are asked at a pass's start; while it runs the minimum and the highest temperature hold. */
const isOutside = ({ conditions }: Assessment): boolean =>
  conditions.some(({ id, state }) => state === 'not met' && (id === 'minimum reached' || id === 'highest temperature'));

/** The sentence as it is read out. */
export const sentenceOf = ({ head, rest }: Standing): string => `${head}${rest}`;

/** What a pass begun now would be recorded as; undefined while all is met. */
export const outsideNow = (standing: Standing, assessment: Assessment): string | undefined => {
  if (standing.tone === 'unknown') {
    return `the screen does not know whether the conditions are met (${inside(sentenceOf(standing))})`;
  }
  const unmet = unmetConditions(assessment).map((condition) => inside(conditionText(condition, assessment)));
  return unmet.length === 0 ? undefined : [...new Set(unmet)].join('; ');
};
