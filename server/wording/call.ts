/**
 * When somebody who asked to be told is to be told: some minutes before a joint is ready, before the interpass window
 * opens, before a break runs out. From what the judge says and foresees. Of the heat inside a part the lowest possible is
 * judged, so that its time counts here too. Nothing is judged by it.
 */
import type { Assessment } from '../judgement/assessment.ts';
import type { Condition } from '../judgement/condition.ts';
import type { Outlook } from '../judgement/inside/section-status.ts';
import { type Milliseconds, minutes } from '../measure/quantity.ts';
import { unmetConditions } from './readiness.ts';
import { durationText } from './time.ts';

export const callKinds = ['ready', 'window', 'break'] as const;
export type CallKind = (typeof callKinds)[number];

const calledBefore = minutes(2);

export const callText: Readonly<Record<CallKind, string>> = {
  ready: '2 min before it is ready',
  window: '2 min before the interpass window opens',
  break: '2 min before the break runs out',
};

/** Milliseconds until it happens; 0 if it has. Undefined where nobody can say. */
export const timeUntil = (kind: CallKind, assessment: Assessment, outlook: Outlook | undefined): number | undefined => {
  switch (kind) {
    case 'ready':
      return untilReady(assessment, outlook);
    case 'window':
      return assessment.interpass.state === 'window' ? 0 : assessment.interpass.timeToWindow;
    case 'break':
      return untilBreakEnds(assessment, outlook);
  }
};

/** What the person is told, or undefined while it is too early. */
export const calledText = (
  kind: CallKind,
  assessment: Assessment,
  outlook: Outlook | undefined,
): string | undefined => {
  if (assessment.phase === 'closed') return 'the joint was closed, nothing is left to call for';
  const until = timeUntil(kind, assessment, outlook);
  if (until === undefined || until > calledBefore) return undefined;
  const soon = until === 0 ? undefined : durationText(until as Milliseconds);
  switch (kind) {
    case 'ready':
      return soon === undefined ? 'it is ready' : `ready in about ${soon}`;
    case 'window':
      return soon === undefined ? 'the interpass window is open' : `the interpass window opens in about ${soon}`;
    case 'break':
      return soon === undefined ? 'the break has run out' : `the break runs out in about ${soon}`;
  }
};

/** What is left of the slowest condition; a soak that has not begun comes after the rest. */
function untilReady(assessment: Assessment, outlook: Outlook | undefined): number | undefined {
  const unmet = unmetConditions(assessment);
  if (assessment.ready) return 0;
  if (unmet.length === 0) return undefined;
  const waits = unmet.filter(({ id, timeToGo }) => id === 'soak' && timeToGo === undefined);
  const first = unmet.filter((each) => !waits.includes(each)).map((each) => untilMet(each, assessment, outlook));
  const soak = waits.length === 0 ? 0 : soakAfter(waits[0]!, assessment);
  if (soak === undefined || first.some((each) => each === undefined)) return undefined;
  return Math.max(0, ...(first as number[])) + soak;
}

const untilMet = (
  condition: Condition,
  { interpass }: Assessment,
  outlook: Outlook | undefined,
): number | undefined => {
  if (condition.id === 'through thickness') {
    const latest = outlook?.sections.map(({ ready }) => ready?.latest) ?? [];
    return latest.length === 0 || latest.includes(undefined) ? undefined : Math.max(...(latest as number[]));
  }
  if (condition.id === 'interpass maximum') return interpass.timeToWindow;
  return condition.timeToGo;
};

/** Only a hold follows by itself when the minimum is reached; a wait begins when a person turns the heat off. */
const soakAfter = ({ reason }: Condition, { soak }: Assessment): number | undefined =>
  soak.rule === 'hold' && reason === 'below minimum' ? soak.required : undefined;

function untilBreakEnds({ coldest, limits }: Assessment, outlook: Outlook | undefined): number | undefined {
  const limit = limits.maintenanceMinimum;
  if (limit === undefined) return undefined;
  if (coldest !== undefined && coldest.temperature < limit) return 0;
  return outlook?.breakByTrend?.time;
}
