/** The judge's answer as the command line gives it: temperatures in degrees, times as the log writes them. */

import type { Assessment, Finding } from '../judgement/assessment.ts';
import type { BoundedCelsius } from '../judgement/inside/section-status.ts';
import { needsAnswer } from '../judgement/people/deviations.ts';
import type { Instant } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { cautions } from '../wording/cautions.ts';
import { findingText } from '../wording/finding.ts';
import { governingSoakText } from '../wording/governing-soak.ts';
import { minimumText } from '../wording/requirement.ts';
import { sectionText, throughText } from '../wording/section.ts';
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
      key: each.key,
      kind: each.kind,
      severity: each.severity,
      probe: each.probe ?? null,
      pass: each.pass ?? null,
      part: each.part ?? null,
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
    throughThickness: throughAnswer(assessment, time),
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
    ...throughLines(assessment, time),
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

/** The hold through the thickness, which soak rule came last, and a line for each part. */
const throughLines = (assessment: Assessment, time: TimeOut): string[] => {
  const { throughThickness: through } = assessment;
  const governed = governingSoakText(assessment);
  return [
    `Heat through the thickness: ${throughText(through)}${through.firstDoneAt === undefined ? '' : ` First done: ${told(time(through.firstDoneAt))}.`}`,
    ...(governed === undefined ? [] : [`  ${governed}`]),
    ...assessment.sections.map((each) => `  ${sectionText(each, assessment)}`),
  ];
};

function throughAnswer({ throughThickness: through, sections }: Assessment, time: TimeOut) {
  const at = (instant: Instant | undefined) => (instant === undefined ? null : time(instant));
  const celsius = (each: BoundedCelsius | undefined) =>
    each === undefined ? null : { low: each.low / 1000, likely: each.likely / 1000, high: each.high / 1000 };
  return {
    asked: through.asked,
    state: through.state,
    requiredSeconds: through.required / 1000,
    doneSeconds: through.done / 1000,
    doneAt: at(through.doneAt),
    firstDoneAt: at(through.firstDoneAt),
    sections: sections.map((each) => ({
      part: each.part,
      state: each.state,
      reason: each.reason ?? null,
      at: at(each.at),
      coldestCelsius: celsius(each.coldest),
      farFaceCelsius: celsius(each.farFace),
    })),
  };
}

const findingLine = (each: Finding, time: TimeOut, units: UnitSystem): string =>
  `  ${told(time(each.from))} to ${each.to === undefined ? 'the end' : told(time(each.to))}: ${findingText(each, units).what}${needsAnswer(each) ? ` [${each.key}]` : ''}`;

const scopeOf = (assessment: Assessment, withEvents: boolean): readonly string[] =>
  withEvents
    ? assessment.scope
    : ['highest temperature', 'probes', 'without events passes, soak and the minimum at the arc are not judged'];
