/** Whether what is entered of a pass makes sense now. Too cold or too hot is recorded and judged, never refused. */
import type { Assessment } from '../judgement/assessment.ts';
import { standingOtherwise } from '../judgement/pass-heat.ts';
import { limits } from '../measure/limits.ts';
import type { Act } from '../weld/entry.ts';
import { detailFields, type PassDetails } from '../weld/pass-acts.ts';
import type { Problem } from '../weld/problems.ts';

type PassAct = Act & { kind: 'pass start' | 'pass end' | 'pass details' };

export function passProblems(act: PassAct, assessment: Assessment): Problem[] {
  switch (act.kind) {
    case 'pass start':
      return startProblems(act.pass, assessment);
    case 'pass end': {
      const running = assessment.passes.filter((each) => each.endedAt === undefined).map((each) => each.pass);
      const allowed = running.length === 0 ? 'no pass is running' : `one that is running: ${running.join(', ')}`;
      if (!running.includes(act.pass)) return [{ field: 'act.pass', found: act.pass, allowed }];
      return detailProblems(act.pass, act, assessment);
    }
    case 'pass details': {
      const known = assessment.passes.map((each) => each.pass);
      const allowed = known.length === 0 ? 'a pass of this joint; none is entered yet' : `one of ${known.join(', ')}`;
      if (!known.includes(act.pass)) return [{ field: 'act.pass', found: act.pass, allowed }];
      return detailProblems(act.pass, act, assessment);
    }
  }
}

/** An end before its start. */
export function endProblems(act: Act & { happenedAt?: number | undefined }, { passes }: Assessment): Problem[] {
  const pass = act.kind === 'pass end' ? passes.find((each) => each.pass === act.pass) : undefined;
  if (pass === undefined || act.happenedAt === undefined || act.happenedAt >= pass.startedAt) return [];
  return [{ field: 'act.happenedAt', found: 'a time before the pass began', allowed: 'a time after its start' }];
}

function startProblems(pass: string, { passes }: Assessment): Problem[] {
  if (passes.some((each) => each.pass === pass))
    return [{ field: 'act.pass', found: pass, allowed: 'a number or name that no pass of this joint has yet' }];
  if (passes.length < limits.passesMaximum) return [];
  const allowed = `at most ${limits.passesMaximum} in one joint; close this one and enter the rest as another`;
  return [{ field: 'act.pass', found: `${passes.length} passes`, allowed }];
}

/** What stands already is not written over. */
function detailProblems(pass: string, added: PassDetails, { passes }: Assessment): Problem[] {
  const details = passes.find((each) => each.pass === pass)?.details ?? {};
  return detailFields
    .filter((field) => standingOtherwise(details, added).includes(field))
    .map((field) => ({
      field: `act.${field}`,
      found: `${added[field]}`,
      allowed: `nothing: ${details[field]} stands already; correct the pass, with the reason`,
    }));
}
