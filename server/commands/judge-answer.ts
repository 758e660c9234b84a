/** The judge's answer as the command line gives it: temperatures in degrees, times as the log writes them. */

import type { Assessment, Finding } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { cautions } from '../wording/cautions.ts';
import { findingText } from '../wording/finding.ts';
import { minimumText } from '../wording/requirement.ts';
import { soakText } from '../wording/soak.ts';
import { scopeText, verdictText } from '../wording/verdict.ts';
import { phaseText } from '../wording/words.ts';

/** An instant as the log writes it: elapsed seconds, or UTC in ISO 8601. */
export type TimeOut = (at: Instant) => number | string;

export function timeOut(form: 'elapsed' | 'dated', start: Instant): TimeOut {
  return form === 'elapsed' ? (at) => (at - start) / 1000 : (at) => new Date(at).toISOString();
}

/** In words: a bare number would not say that it counts seconds. */
const told = (time: number | string): string => (typeof time === 'number' ? `${time} s` : time);

export function judgeAnswer(assessment: Assessment, time: TimeOut, withEvents: boolean) {
  const extreme = (each: { readonly probe: string; readonly temperature: number } | undefined) =>
    each === undefined ? null : { probe: each.probe, celsius: each.temperature / 1000 };
  return {
    verdict: assessment.verdict,
    scope: scopeOf(assessment, withEvents),
    findings: assessment.findings.map((each) => ({
      kind: each.kind,
      severity: each.severity,
      probe: each.probe ?? null,
      pass: each.pass ?? null,
      from: time(each.from),
      to: each.to === undefined ? null : time(each.to),
      value: each.value === undefined ? null : each.value / 1000,
      limit: each.limit === undefined ? null : each.limit / 1000,
    })),
    requirement: assessment.requirement,
    soak: {
      rule: assessment.soak.rule,
      state: withEvents ? assessment.soak.state : 'not judged',
      requiredSeconds: assessment.soak.required === undefined ? null : assessment.soak.required / 1000,
      doneSeconds: assessment.soak.done === undefined ? null : assessment.soak.done / 1000,
    },
    minimumFirstReachedAt:
      assessment.minimumFirstReachedAt === undefined ? null : time(assessment.minimumFirstReachedAt),
    passes: assessment.passes.map((each) => ({
      pass: each.pass,
      kind: each.passKind,
      welder: each.welder,
      startedAt: time(each.startedAt),
      endedAt: each.endedAt === undefined ? null : time(each.endedAt),
      minimum: each.minimum,
      maximum: each.maximum,
      coldestAtStart: extreme(each.coldestAtStart),
      coldestDuring: extreme(each.coldestDuring),
      interpass: extreme(each.interpass),
      hottestDuring: extreme(each.hottestDuring),
      outside: each.outside,
    })),
  };
}

export function judgeText(assessment: Assessment, time: TimeOut, withEvents: boolean): string {
  const { requirement, findings, passes } = assessment;
  return [
    verdictText(assessment),
    withEvents ? scopeText(assessment) : `Judged: ${scopeOf(assessment, false).join(', ')}.`,
    `Minimum: ${minimumText(requirement)}. ${requirement.governing.because}`,
    ...requirement.warnings.map((each) => `  ! ${each.message}`),
    `At the end of the log: ${phaseText(assessment.phase)}. Soak: ${withEvents ? soakText(assessment.soak) : 'not judged, since no event says when heat was off and when an arc was struck'}`,
    ...(assessment.minimumFirstReachedAt === undefined
      ? ['The minimum was never reached at all required places at once.']
      : [`All required places first at minimum: ${told(time(assessment.minimumFirstReachedAt))}.`]),
    '',
    findings.length === 0 ? 'No findings.' : `Findings (${findings.length}):`,
    ...findings.map((each) => findingLine(each, time, requirement.units)),
    ...(passes.length === 0 ? [] : ['', `Passes (${passes.length}):`]),
    ...passes.map(
      (each) =>
        `  ${each.pass}: from ${told(time(each.startedAt))}${each.endedAt === undefined ? ', not ended' : ` to ${told(time(each.endedAt))}`}; minimum ${each.minimum}, interpass maximum ${each.maximum}`,
    ),
    '',
    ...cautions,
  ].join('\n');
}

const findingLine = (each: Finding, time: TimeOut, units: UnitSystem): string =>
  `  ${told(time(each.from))} to ${each.to === undefined ? 'the end' : told(time(each.to))}: ${findingText(each, units).what}`;

const scopeOf = (assessment: Assessment, withEvents: boolean): readonly string[] =>
  withEvents
    ? assessment.scope
    : ['highest temperature', 'probes', 'without events passes, soak and the minimum at the arc are not judged'];
