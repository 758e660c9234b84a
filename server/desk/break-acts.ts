/** Whether a break, or an inspection after one, makes sense now. */
import type { Assessment } from '../judgement/assessment.ts';
import type { BreakAct } from '../weld/break.ts';
import type { Problem } from '../weld/problems.ts';

export function breakProblems(act: BreakAct, { after, passes, breaks = [] }: Assessment): Problem[] {
  const told = (found: string, allowed: string, field = 'act'): Problem[] => [{ field, found, allowed }];
  if (after !== undefined) return told(act.kind, 'a joint whose last arc is not out yet');
  if (passes.length === 0) return told(act.kind, 'a joint in which a pass was welded; none is entered yet');
  const running = passes.filter(({ endedAt }) => endedAt === undefined).map(({ pass }) => pass);
  if (running.length > 0) return told(act.kind, `the end of every pass first; running: ${running.join(', ')}`);
  const newest = breaks.at(-1);
  if (act.kind === 'break inspected') {
    const isOpen = newest !== undefined && newest.answered !== true;
    return isOpen ? [] : told(act.kind, 'a break since the last pass; none is known: enter the break first');
  }
  const isOn = newest !== undefined && newest.to === undefined;
  if (act.state === 'ended') return isOn ? [] : told(act.state, 'the beginning first', 'act.state');
  const isDeclared = isOn && newest.reason !== undefined;
  return isDeclared ? told(act.state, 'the end of the break that is on', 'act.state') : [];
}
