/** What remains visible of passes that were put right: how they were judged before, and those that were struck. */
import type { Instant } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';
import type { PassCorrection } from '../weld/pass-acts.ts';
import type { JudgedBefore, PassStatus, ShownCorrection, StruckPass } from './pass-status.ts';
import type { State } from './state.ts';

/** The judgements of before, with that of the pass which the newest input puts right. */
export function withJudgement(state: State, newest: Input): State['judgedBefore'] {
  const pass =
    newest.type === 'act' && newest.act.kind === 'correct pass'
      ? state.passes.find((each) => newest.act.kind === 'correct pass' && each.pass === newest.act.pass)
      : undefined;
  if (pass === undefined || newest.type !== 'act') return state.judgedBefore;
  const { minimum, maximum, heat } = pass;
  return [...state.judgedBefore, { at: newest.at, pass: pass.pass, judged: { minimum, maximum, heat: heat.state } }];
}

/** A struck pass is none: nothing is judged by it. */
export function strike(state: State, corrections: readonly PassCorrection[], enteredAt: Instant): void {
  const { was } = corrections.at(-1)!;
  const { pass, passKind, welder, startedAt, endedAt } = was;
  state.struck.push({
    pass: pass!,
    passKind: passKind!,
    welder: welder!,
    startedAt: startedAt!,
    enteredAt,
    ...(endedAt === undefined ? {} : { endedAt }),
    corrections,
  });
}

export const struckPasses = (state: State): readonly StruckPass[] =>
  state.struck.map((each) => ({ ...each, corrections: shown(state, each.corrections, each.pass) }));

export const shown = (
  { judgedBefore }: State,
  corrections: readonly PassCorrection[],
  pass: PassStatus['pass'],
): readonly ShownCorrection[] =>
  corrections.map((each) => {
    const name = each.was.pass ?? pass;
    const before: JudgedBefore | undefined = judgedBefore.find(
      ({ at, pass: of }) => at === each.at && of === name,
    )?.judged;
    return { ...each, ...(before === undefined ? {} : { judged: before }) };
  });
