/** Whether an act makes sense at this joint now. What does not is told at the field; what is outside the rules is recorded and judged, never refused. */
import type { Assessment } from '../judgement/assessment.ts';
import { rules } from '../judgement/rules.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Act } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Role } from '../weld/person.ts';
import type { Problem } from '../weld/problems.ts';
import { strangeNames } from '../weld/strange-names.ts';
import { durationText } from '../wording/time.ts';
import { afterProblems } from './after-acts.ts';
import { alarmProblems } from './alarm-acts.ts';
import { breakProblems } from './break-acts.ts';
import { checkProblems } from './check-acts.ts';
import { dispositionProblems } from './disposition.ts';
import { handReadingProblems } from './hand-reading-acts.ts';
import { endProblems, passProblems } from './pass-acts.ts';
import { correctionProblems } from './pass-correction.ts';

export function actProblems(
  act: Act,
  assessment: Assessment,
  joint: Joint,
  now: Instant,
  role?: Role,
): readonly Problem[] {
  if (assessment.phase === 'closed') {
    return [
      {
        field: 'act',
        found: act.kind,
        allowed: 'nothing more: this joint is closed; enter a new joint for further work',
      },
    ];
  }
  const strange = strangeNames(act, joint);
  return [
    ...timeProblems(act, assessment, now),
    ...(strange.length > 0 ? strange : kindProblems(act, assessment, joint, now, role)),
  ];
}

function timeProblems(act: Act, assessment: Assessment, now: Instant): Problem[] {
  if (!('happenedAt' in act) || act.happenedAt === undefined) return [];
  const field = 'act.happenedAt';
  if (act.happenedAt > now + 1000) return [{ field, found: 'a time in the future', allowed: 'now or earlier' }];
  // A certificate may hold from long before the first reading: the record is then judged anew.
  if (act.happenedAt < now - rules.toldWithin && !isOfInstrument(act)) {
    return [
      {
        field,
        found: 'a time too long ago',
        allowed: `at most ${durationText(rules.toldWithin)} ago, so that it can be judged in its place; write a note for what is older`,
      },
    ];
  }
  if (assessment.openedAt !== undefined && act.happenedAt < assessment.openedAt && !isOfInstrument(act))
    return [
      {
        field,
        found: 'a time before the joint was opened',
        allowed: 'a time since then; write a note of what is older',
      },
    ];
  return endProblems(act, assessment);
}

function kindProblems(act: Act, assessment: Assessment, joint: Joint, now: Instant, role: Role | undefined): Problem[] {
  switch (act.kind) {
    case 'pass start':
    case 'pass end':
    case 'pass details':
      return passProblems(act, assessment);
    case 'correct pass':
      return correctionProblems(act, assessment, now);
    case 'acknowledge':
    case 'shelve':
    case 'unshelve':
      return alarmProblems(act, assessment);
    case 'disposition':
      return dispositionProblems(act, assessment);
    case 'contact reading':
      return handReadingProblems(act, joint, assessment);
    case 'ambient check':
      return ambientProblems(act);
    case 'distrust probe':
    case 'trust probe again':
      return trustProblems(act, assessment);
    case 'spare takes over':
      return spareProblems(act, assessment);
    case 'check answered':
    case 'point released':
    case 'point waived':
    case 'point refused':
      return checkProblems(act, joint, assessment, role);
    case 'break':
    case 'break inspected':
      return breakProblems(act, assessment);
    case 'welding complete':
    case 'post-heating':
    case 'cover':
    case 'heat treatment begun':
    case 'testing begun':
    case 'spot examined':
      return afterProblems(act, assessment, joint);
    case 'revise':
      return act.joint.id === joint.id ? [] : [{ field: 'act.joint.id', found: act.joint.id, allowed: joint.id }];
    default:
      return [];
  }
}

function ambientProblems({ rest, touches }: Act & { kind: 'ambient check' }): Problem[] {
  const atRest = rest.map(({ probe }) => probe);
  const twice = atRest.find((probe, index) => atRest.indexOf(probe) < index);
  if (twice !== undefined) return [{ field: 'act.rest', found: `${twice} twice`, allowed: 'each probe once' }];
  const unread = touches.find(({ probe }) => !atRest.includes(probe));
  if (unread !== undefined)
    return [{ field: 'act.touches', found: unread.probe, allowed: 'a probe that has its place in act.rest' }];
  return [];
}

function trustProblems(act: Act & { kind: 'distrust probe' | 'trust probe again' }, { probes }: Assessment): Problem[] {
  const asked = probes.find((each) => each.probe === act.probe);
  const wanted = act.kind === 'trust probe again';
  const fitting = probes.filter((each) => (each.distrusted !== undefined) === wanted).map((each) => each.probe);
  if (asked !== undefined && fitting.includes(act.probe)) return [];
  const state = wanted ? 'distrusted' : 'in the judgement';
  const allowed = fitting.length === 0 ? `no probe is ${state}` : `a probe that is ${state}: ${fitting.join(', ')}`;
  return [{ field: 'act.probe', found: act.probe, allowed }];
}

function spareProblems(act: Act & { kind: 'spare takes over' }, { probes }: Assessment): Problem[] {
  const found: Problem[] = [];
  const spares = probes.filter((each) => each.use === 'spare' && each.distrusted === undefined);
  if (!spares.some((each) => each.probe === act.spare)) {
    const names = spares.map((each) => each.probe).join(', ');
    const allowed = names === '' ? 'this joint has no spare that is trusted' : `a spare that is trusted: ${names}`;
    found.push({ field: 'act.spare', found: act.spare, allowed });
  }
  const fitted = probes.filter((each) => each.use !== 'spare');
  if (!fitted.some((each) => each.probe === act.probe)) {
    const allowed = `a probe that is no spare: ${fitted.map((each) => each.probe).join(', ')}`;
    found.push({ field: 'act.probe', found: act.probe, allowed });
  }
  return found;
}

const isOfInstrument = ({ kind }: Act): boolean =>
  kind === 'calibration' || kind === 'verification' || kind === 'adjustment';
