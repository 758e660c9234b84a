/** Whether a step after the last arc makes sense now. Too early or too warm is recorded and judged; only what cannot be is told. */
import type { Assessment } from '../judgement/assessment.ts';
import type { AfterAct } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Problem } from '../weld/problems.ts';

export function afterProblems(act: AfterAct, { after, passes }: Assessment, joint: Joint): Problem[] {
  const told = (found: string, allowed: string, field = 'act'): Problem[] => [{ field, found, allowed }];
  switch (act.kind) {
    case 'welding complete': {
      const running = passes.filter(({ endedAt }) => endedAt === undefined).map(({ pass }) => pass);
      if (passes.length === 0) return told(act.kind, 'a joint in which a pass was welded; none is entered yet');
      if (running.length > 0) return told(act.kind, `the end of every pass first; running: ${running.join(', ')}`);
      return after === undefined ? [] : told(act.kind, 'one that is not entered already');
    }
    case 'post-heating': {
      if (after === undefined) return told(act.kind, 'welding to be complete first');
      const { postHeating } = after;
      if (joint.postHeating === undefined)
        return told(act.kind, 'a joint whose procedure asks for post-heating; correct the joint and add it');
      const isRunning = postHeating?.begunAt !== undefined && postHeating.endedAt === undefined;
      if (act.state === 'ended' && !isRunning) return told(act.state, 'the beginning first', 'act.state');
      return act.state === 'begun' && isRunning ? told(act.state, 'the end of the one that runs', 'act.state') : [];
    }
    case 'heat treatment begun':
    case 'testing begun':
      return after === undefined ? told(act.kind, 'welding to be complete first') : [];
    case 'spot examined':
    case 'cover':
      return [];
  }
}
