/**
 * What a person must be told or asked about a requirement. A warning that wants an answer holds back readiness
 * until a named person has given it; the others inform.
 */
import { unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Acceptance, Governing, MethodAnswer, RequirementWarning } from './answer.ts';
import { acceptanceOf, highestOf, isBinding } from './governing.ts';
import { degrees, steady } from './number.ts';
import { apartFromPart, sharedByParts } from './shared-by-parts.ts';

export function warnings(
  joint: Joint,
  answers: readonly MethodAnswer[],
  acceptances: readonly Acceptance[],
  governs: Governing,
): readonly RequirementWarning[] {
  const governors = answers.filter((one) => one.role === 'may govern');
  // A floor of the chosen code that cannot be read is a gap in what is mandatory: it is told as well.
  const ofTheCode = answers.filter((one) => one.role !== 'comparison only');
  return [
    ...silent(ofTheCode),
    ...extended(joint, governors, acceptances, governs),
    ...flags(ofTheCode),
    ...procedureSilent(joint),
    ...procedureBelow(joint, governors, acceptances, governs),
    ...aboveMaximum(joint, governs),
    ...floorBelow(joint, answers),
  ];
}

/** Methods that give no number, and why; parts with the same reason in one sentence. */
const silent = (answers: readonly MethodAnswer[]): RequirementWarning[] =>
  sharedByParts(
    answers.filter((one) => one.applicable === 'no'),
    ({ id, reason }) => ({ id, reason }),
  ).map(({ one, parts }) => ({
    kind: one.missing.length > 0 ? 'missing fact' : 'out of range',
    message: `${one.title}, part ${parts.join(', ')}: ${one.missing.length > 0 ? one.reason : `no number, because ${one.reason}`}.`,
    wantsAnswer: false,
    method: one.id,
  }));

const flags = (answers: readonly MethodAnswer[]): RequirementWarning[] =>
  sharedByParts(
    answers.flatMap(({ id, title, part, flags: all }) => all.map((flag) => ({ id, title, part, flag }))),
    apartFromPart,
  ).map(({ told: { id, title, flag }, parts }) => ({
    kind: 'missing fact',
    message: `${title}, part ${parts.join(', ')}: ${flag}.`,
    wantsAnswer: false,
    method: id,
  }));

function extended(
  joint: Joint,
  answers: readonly MethodAnswer[],
  acceptances: readonly Acceptance[],
  governs: Governing,
): RequirementWarning[] {
  return answers
    .filter((one) => one.applicable === 'extended')
    .map((one) => {
      const accepted = acceptanceOf(one, acceptances);
      const head = `${one.title}, part ${one.part}: ${degrees(one.computedCelsius!, unitsOf(joint))} is computed outside the validated range (${one.reason})`;
      if (accepted !== undefined) {
        return {
          kind: 'out of range',
          message: `${head}; accepted by ${accepted.who}.`,
          wantsAnswer: false,
          method: one.id,
        };
      }
      const needed =
        joint.procedure?.preheatMinimumCelsius === undefined || isBinding(joint, one) || governs.kind === 'none';
      return {
        kind: 'extended range not accepted',
        message: `${head}; it may govern only once a named person accepts it.`,
        wantsAnswer: needed,
        method: one.id,
      };
    });
}

function procedureSilent(joint: Joint): RequirementWarning[] {
  if (joint.procedure === undefined || joint.procedure.preheatMinimumCelsius !== undefined) return [];
  const { id, revision } = joint.procedure;
  const message = `Procedure ${id} revision ${revision} states no minimum preheat; the calculation is used instead.`;
  return [{ kind: 'missing fact', message, wantsAnswer: false }];
}

/** Also an extended calculation warns: it is a number that someone should have looked at. */
function procedureBelow(
  joint: Joint,
  answers: readonly MethodAnswer[],
  acceptances: readonly Acceptance[],
  governs: Governing,
): RequirementWarning[] {
  const stated = joint.procedure?.preheatMinimumCelsius;
  const highest = highestOf(answers.filter((one) => !one.noPreheatNeeded));
  if (stated === undefined || highest === undefined || stated >= steady(highest.computedCelsius!)) return [];
  const accepted = acceptances.find((one) => one.subject === 'procedure below calculation');
  const raised = (governs.preheatMinimumCelsius ?? stated) >= steady(highest.computedCelsius!);
  const tail =
    accepted !== undefined ? ` Accepted by ${accepted.who}.` : raised ? '' : ' A named person must answer for it.';
  return [
    {
      kind: 'procedure below calculation',
      message: `The procedure asks for ${degrees(stated, unitsOf(joint))}, below the ${degrees(highest.computedCelsius!, unitsOf(joint))} of ${highest.title} for part ${highest.part}.${tail}`,
      wantsAnswer: accepted === undefined && !raised,
      method: highest.id,
    },
  ];
}

function aboveMaximum(joint: Joint, governs: Governing): RequirementWarning[] {
  const minimum = governs.preheatMinimumCelsius;
  if (minimum === undefined || joint.procedure === undefined) return [];
  const { interpassMaximumCelsius: interpass, highestCelsius: highest } = joint.procedure;
  const named = [
    ...(interpass === undefined ? [] : [{ name: 'maximum interpass temperature', value: interpass }]),
    ...(highest === undefined ? [] : [{ name: 'highest temperature allowed', value: highest }]),
  ];
  return named
    .filter(({ value }) => minimum > value)
    .map(({ name, value }) => ({
      kind: 'minimum above maximum interpass',
      message: `The minimum of ${degrees(minimum, unitsOf(joint))} is above the procedure's ${name} of ${degrees(value, unitsOf(joint))}: no temperature satisfies both. Have the procedure corrected before heating.`,
      wantsAnswer: false,
    }));
}

/** A code's floor may lie far below what the metal asks for; whoever reads only the table must be told. */
function floorBelow(joint: Joint, answers: readonly MethodAnswer[]): RequirementWarning[] {
  return answers
    .filter((one) => one.role === 'code minimum' && one.computedCelsius !== undefined)
    .flatMap((one) => {
      const own = answers.filter((other) => other.role === 'may govern' && other.part === one.part);
      const highest = highestOf(own.filter((other) => !other.noPreheatNeeded));
      if (highest === undefined || highest.computedCelsius! - one.computedCelsius! < 25) return [];
      return [
        {
          kind: 'code minimum below calculation' as const,
          message: `${one.title}, part ${one.part}: the floor of ${degrees(one.computedCelsius!, unitsOf(joint))} is far below the ${degrees(highest.computedCelsius!, unitsOf(joint))} of ${highest.title}. A floor says how cold a weld may never be, not how warm this one must be.`,
          wantsAnswer: false,
          method: one.id,
        },
      ];
    });
}
