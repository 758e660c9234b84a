/**
 * What was answered before welding and what was released, against what the procedure asks for. An answer that nobody gave
 * is not a bad one: without it a pass cannot be judged. An answer "not in order" that is welded over, and a hold point that
 * is passed without its release, do not comply.
 */
import type { Check, CheckAct, Point } from '../../weld/checks.ts';
import type { Condition } from '../condition.ts';
import { note } from '../findings.ts';
import { hasBegunWelding, type State } from '../state.ts';
import type { CheckStatus, PointStatus } from './check-status.ts';

export function takeCheck(state: State, act: CheckAct, who: string, role: string | undefined): void {
  const by = { who, ...(role === undefined ? {} : { role }), at: state.now };
  if (act.kind === 'check answered') {
    const check = checksOf(state).find(({ id }) => id === act.check);
    if (!counts(check?.role, role)) return;
    state.checks.answers[act.check] = {
      answer: act.answer,
      ...by,
      ...(act.note === undefined ? {} : { note: act.note }),
      ...(act.document === undefined ? {} : { document: act.document }),
    };
    return;
  }
  const point = pointsOf(state).find(({ id }) => id === act.point);
  if (!counts(point?.role, role)) return;
  if (act.kind === 'point refused') {
    if (state.checks.given[act.point] === undefined) state.checks.refused[act.point] = { ...by, reason: act.reason };
    return;
  }
  delete state.checks.refused[act.point];
  const words = act.kind === 'point waived' ? act.reason : act.note;
  state.checks.given[act.point] = {
    state: act.kind === 'point waived' ? 'waived' : 'released',
    ...by,
    ...(words === undefined ? {} : { note: words }),
  };
}

export const hasChecked = ({ checks }: State): boolean =>
  Object.keys(checks.answers).length > 0 || Object.keys(checks.given).length > 0;

export const openChecks = (state: State, weight: Check['weight']): Check[] =>
  checksOf(state).filter((each) => each.weight === weight && !isInOrder(state, each));

export function checkConditions(state: State): Condition[] {
  return [...blocking(state), ...holding(state)];
}

function blocking(state: State): Condition[] {
  if (!checksOf(state).some(({ weight }) => weight === 'blocks')) return [];
  const id = 'checks';
  const open = openChecks(state, 'blocks');
  const wrong = open.filter((each) => state.checks.answers[each.id] !== undefined);
  if (wrong.length > 0) return [{ id, state: 'not met', reason: 'check not in order', missing: textsOf(wrong) }];
  return open.length === 0
    ? [{ id, state: 'met', reason: 'ok' }]
    : [{ id, state: 'not judged', reason: 'check not answered', missing: textsOf(open) }];
}

/** Of the points that the next pass would go past. */
function holding(state: State): Condition[] {
  const due = duePoints(state, nextPass(state)).filter(({ kind }) => kind === 'hold');
  if (due.length === 0) return [];
  const id = 'hold points';
  const open = due.filter((each) => state.checks.given[each.id] === undefined);
  if (open.length === 0) return [{ id, state: 'met', reason: 'ok' }];
  const reason = open.some((each) => state.checks.refused[each.id] !== undefined)
    ? 'hold point refused'
    : 'hold point not released';
  return [{ id, state: 'not met', reason, missing: open.map((each) => standing(state, each)) }];
}

/** A pass begins: what was not answered or not in order, and the points that it goes past. */
export function notePassChecks(state: State, pass: string): void {
  for (const check of checksOf(state)) {
    const given = state.checks.answers[check.id];
    if (isInOrder(state, check)) continue;
    const key = `${check.id} ${given?.answer ?? ''}`;
    if (state.checks.told.includes(key)) continue;
    state.checks.told.push(key);
    const kind = given === undefined ? 'check not answered' : 'check not in order';
    const warned = check.weight === 'warns' ? ('check only warns' as const) : kind;
    note(state, warned, state.now, { item: check.text, pass });
  }
  goPast(state, duePoints(state, pass), { pass });
}

/** Post-heating begins, or the joint is closed. */
export const noteStage = (state: State, before: 'post-heating' | 'closing'): void =>
  goPast(
    state,
    pointsOf(state).filter((each) => each.before === before),
    {},
  );

export const checksStatus = (state: State): CheckStatus[] =>
  checksOf(state).map((each) => {
    const answered = state.checks.answers[each.id];
    return answered === undefined ? each : { ...each, answered };
  });

export const pointsStatus = (state: State): PointStatus[] =>
  pointsOf(state).map((each) => {
    const { given, passed } = state.checks;
    const [release, passedAt, refused] = [given[each.id], passed[each.id], state.checks.refused[each.id]];
    return {
      ...each,
      ...(release === undefined ? {} : { given: release }),
      ...(refused === undefined ? {} : { refused }),
      ...(passedAt === undefined ? {} : { passedAt }),
    };
  });

function goPast(state: State, points: readonly Point[], detail: { readonly pass?: string }): void {
  for (const point of points) {
    if (state.checks.given[point.id] !== undefined || state.checks.passed[point.id] !== undefined) continue;
    state.checks.passed[point.id] = state.now;
    const kind = point.kind === 'hold' ? 'hold point not released' : 'witness point passed';
    note(state, kind, state.now, { item: standing(state, point), ...detail });
  }
}

const checksOf = ({ joint }: State): readonly Check[] => joint.procedure?.checks ?? [];
const pointsOf = ({ joint }: State): readonly Point[] => joint.procedure?.points ?? [];

/** Where nobody states a role, as in a station without sign-on, the name stands for it. */
const counts = (asked: string | undefined, role: string | undefined): boolean =>
  asked === undefined || role === undefined || role === asked;

const isInOrder = ({ checks }: State, { id }: Check): boolean => {
  const answer = checks.answers[id]?.answer;
  return answer === 'in order' || answer === 'not applicable';
};

const duePoints = (state: State, pass: string): Point[] =>
  pointsOf(state).filter(
    (each) =>
      (each.before === 'first pass' && !hasBegunWelding(state)) || (each.before === 'pass' && each.pass === pass),
  );

/** The number after the highest; whoever names passes otherwise is told when the pass begins. */
const nextPass = ({ passes }: State): string =>
  String(Math.max(0, ...passes.map(({ pass }) => (/^\d+$/.test(pass) ? Number(pass) : 0))) + 1);

const textsOf = (checks: readonly Check[]): string[] => checks.map(({ text }) => text);
const nameOf = ({ id, text }: Point): string => (text === undefined ? id : `${id}, ${text}`);
/** With what was said by whoever did not release it. */
const standing = ({ checks }: State, point: Point): string => {
  const refused = checks.refused[point.id];
  return refused === undefined ? nameOf(point) : `${nameOf(point)} (not released by ${refused.who}: ${refused.reason})`;
};
