/** The steps after the last arc: which of them make sense now, which comes next, and the act that each makes. */
import { examinationMethods } from '../../../server/weld/break.ts';
import type { Act } from '../../../server/weld/entry.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import type { Draft } from './act-draft.ts';

export type AfterStep =
  | 'welding complete'
  | 'post-heating begun'
  | 'post-heating ended'
  | 'cover on'
  | 'cover off'
  | 'heat treatment begun'
  | 'testing begun'
  | 'spot examined';

export const stepWords: Readonly<Record<AfterStep, string>> = {
  'welding complete': 'Welding complete',
  'post-heating begun': 'Post-heating begun',
  'post-heating ended': 'Post-heating ended',
  'cover on': 'Covered',
  'cover off': 'Cover taken off',
  'heat treatment begun': 'Heat treatment begun',
  'testing begun': 'Testing begun',
  'spot examined': 'Probe spot examined',
};

/** The step that is due now, if one is: what would be too early is not. */
export function stepDue({ assessment }: LiveJoint): AfterStep | undefined {
  const { after, hottest } = assessment;
  if (after === undefined) return undefined;
  const { postHeating, cover, heatTreatment, wait, spots } = after;
  if (postHeating !== undefined && postHeating.begunAt === undefined) return 'post-heating begun';
  if (postHeating !== undefined && postHeating.endedAt === undefined)
    return postHeating.state === 'done' ? 'post-heating ended' : undefined;
  if (cover?.state === 'not entered') return 'cover on';
  if (cover?.state === 'on')
    return hottest !== undefined && hottest.temperature <= cover.until ? 'cover off' : undefined;
  if (heatTreatment?.cooledAt !== undefined && heatTreatment.begunAt === undefined) return 'heat treatment begun';
  if (spots.some(({ examined }) => examined === undefined)) return 'spot examined';
  return wait.state === 'over' ? 'testing begun' : undefined;
}

/** The steps that make sense now, the one that is due first. */
export function stepsNow(live: LiveJoint): readonly AfterStep[] {
  const { after } = live.assessment;
  if (after === undefined) return ['welding complete'];
  const due = stepDue(live);
  const { postHeating, cover, heatTreatment, spots } = after;
  const running = postHeating?.begunAt !== undefined && postHeating.endedAt === undefined;
  const covering: AfterStep = cover?.state === 'on' ? 'cover off' : 'cover on';
  const asked: (AfterStep | false)[] = [
    running && 'post-heating ended',
    postHeating !== undefined && postHeating.begunAt === undefined && 'post-heating begun',
    cover !== undefined && covering,
    heatTreatment !== undefined && heatTreatment.begunAt === undefined && 'heat treatment begun',
    'testing begun',
    spots.some(({ examined }) => examined === undefined) && 'spot examined',
    cover === undefined && covering,
    postHeating?.endedAt !== undefined && 'post-heating begun',
  ];
  const others = asked.filter((each) => each !== false && each !== due) as AfterStep[];
  return due === undefined ? others : [due, ...others];
}

export const freshAfter = (live: LiveJoint): Draft => ({
  step: stepsNow(live)[0] ?? 'testing begun',
  method: '',
  spot: live.assessment.after?.spots.find(({ examined }) => examined === undefined)?.probe ?? '',
  by: '',
  result: '',
  ago: '',
});

export function afterActOf(
  draft: Draft,
  problem: (field: string, ask: string) => void,
  ago: { readonly happenedAt?: number },
): Act {
  const step = draft.step as AfterStep;
  switch (step) {
    case 'post-heating begun':
    case 'post-heating ended':
      return { kind: 'post-heating', state: step === 'post-heating begun' ? 'begun' : 'ended', ...ago };
    case 'cover on':
    case 'cover off':
      return { kind: 'cover', state: step === 'cover on' ? 'on' : 'off', ...ago };
    case 'testing begun': {
      const method = (draft.method ?? '').trim();
      if (method === '') problem('method', 'By which method? For instance MT, UT.');
      return { kind: 'testing begun', method, ...ago };
    }
    case 'spot examined': {
      const { spot = '', result } = draft;
      if (spot === '') problem('spot', 'Choose the probe whose spot was examined.');
      if (result !== 'no indication' && result !== 'indication') problem('result', 'Say what was found.');
      const method = examinationMethods.find((each) => each === draft.by);
      if (method === undefined) problem('by', 'Choose how it was examined.');
      return {
        kind: 'spot examined',
        probe: spot,
        method: method ?? examinationMethods[0],
        result: result === 'indication' ? 'indication' : 'no indication',
        ...ago,
      };
    }
    case 'welding complete':
    case 'heat treatment begun':
      return { kind: step, ...ago };
  }
}
