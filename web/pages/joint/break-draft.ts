/** Breaks and the inspection after one: which steps make sense now, and the act that each makes. */
import { type BreakAct, examinationMethods } from '../../../server/weld/break.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import type { Draft } from './act-draft.ts';

export type BreakStep = 'break begun' | 'break ended' | 'inspected';

export const breakStepWords: Readonly<Record<BreakStep, string>> = {
  'break begun': 'Break',
  'break ended': 'Break over',
  inspected: 'Inspected',
};

/** None while a pass runs, before the first and after the last; the one that most likely comes next stands first. */
export function breakStepsNow({ assessment }: LiveJoint): readonly BreakStep[] {
  const { passes, after, breaks = [], phase } = assessment;
  if (passes.length === 0 || after !== undefined || passes.some(({ endedAt }) => endedAt === undefined)) return [];
  const newest = breaks.at(-1);
  const isOn = phase === 'interrupted';
  const isAfterBreak = newest !== undefined && newest.answered !== true;
  const steps: (BreakStep | false)[] = [
    isAfterBreak && isInspectionAsked(assessment.conditions) && 'inspected',
    isOn && 'break ended',
    !(isOn && newest?.reason !== undefined) && 'break begun',
    isAfterBreak && !isInspectionAsked(assessment.conditions) && 'inspected',
  ];
  return steps.filter((each) => each !== false);
}

export const isInspectionAsked = (conditions: LiveJoint['assessment']['conditions']): boolean =>
  conditions.some(({ reason }) => reason === 'not inspected' || reason === 'indication found');

export const freshBreak = (live: LiveJoint): Draft => ({
  step: breakStepsNow(live)[0] ?? 'break begun',
  text: '',
  by: '',
  result: '',
  note: '',
  ago: '',
});

export function breakActOf(
  draft: Draft,
  problem: (field: string, ask: string) => void,
  ago: { readonly happenedAt?: number },
): BreakAct {
  switch (draft.step as BreakStep) {
    case 'break begun': {
      const reason = (draft.text ?? '').trim();
      if (reason === '') problem('text', 'Why is welding interrupted? A word or two.');
      return { kind: 'break', state: 'begun', reason, ...ago };
    }
    case 'break ended':
      return { kind: 'break', state: 'ended', ...ago };
    case 'inspected': {
      const { result } = draft;
      if (result !== 'no indication' && result !== 'indication') problem('result', 'Say what was found.');
      const method = examinationMethods.find((each) => each === draft.by);
      if (method === undefined) problem('by', 'Choose how it was examined.');
      const words = (draft.note ?? '').trim();
      return {
        kind: 'break inspected',
        method: method ?? examinationMethods[0],
        result: result === 'indication' ? 'indication' : 'no indication',
        ...(words === '' ? {} : { note: words }),
        ...ago,
      };
    }
  }
}
