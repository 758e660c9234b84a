/** Whether a correction of a pass makes sense: of a pass that stands, to something else than stands, at times that can be. */
import type { Assessment } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import { detailFields, type PassCorrectionAct } from '../weld/pass-acts.ts';
import type { Problem } from '../weld/problems.ts';

export function correctionProblems(act: PassCorrectionAct, { passes }: Assessment, now: Instant): Problem[] {
  const told = (field: string, found: unknown, allowed: string): Problem[] => [
    { field: `act.${field}`, found: `${found}`, allowed },
  ];
  const pass = passes.find((each) => each.pass === act.pass);
  const names = passes.map((each) => each.pass).join(', ');
  if (pass === undefined)
    return told('pass', act.pass, names === '' ? 'a pass of this joint; none is entered' : `one of ${names}`);
  if (act.struck === true) return [];
  const { name, startedAt = pass.startedAt, endedAt = pass.endedAt } = act;
  if (name !== undefined && passes.some((each) => each.pass === name && each !== pass))
    return told('name', name, 'a number or name that no other pass has');
  if (act.endedAt !== undefined && pass.endedAt === undefined)
    return told('endedAt', 'a time', 'nothing: the pass still runs; enter its end');
  const late = (['startedAt', 'endedAt'] as const).find((field) => (act[field] ?? 0) > now + 1000);
  if (late !== undefined) return told(late, 'a time in the future', 'now or earlier');
  if (endedAt !== undefined && startedAt > endedAt)
    return told(
      act.startedAt === undefined ? 'endedAt' : 'startedAt',
      'an end before the start',
      'a start before the end',
    );
  const stands = { ...pass.details, name: pass.pass, ...pick(pass) };
  const isOther = fields.some((field) => act[field] !== undefined && act[field] !== stands[field]);
  return isOther ? [] : told('kind', act.kind, 'something that is not so already; nothing here would change');
}

const fields = ['name', 'passKind', 'welder', 'startedAt', 'endedAt', ...detailFields] as const;

const pick = ({ passKind, welder, startedAt, endedAt }: Assessment['passes'][number]) => ({
  passKind,
  welder,
  startedAt,
  endedAt,
});
