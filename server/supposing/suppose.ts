/**
 * What if: the same judge over the same record with one stated change. It is no part of the record, changes nothing in it, and says with
 * its answer what it had to take for granted.
 */
import type { Verdict } from '../judgement/assessment.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';
import { type Joint, jointSchema } from '../weld/joint.ts';
import { problems } from '../weld/problems.ts';
import { type NotSupposed, type Remark, type SupposedAnswer, without } from './answer.ts';
import { inputsAs, isAbout, isOnFarFace, jointAs, lastJoint } from './changed-joint.ts';
import { moreTime } from './more-time.ts';
import { again, type Ordered, ordered, run, stoodOf } from './run.ts';
import type { Question, Supposition } from './supposition.ts';

/** The inputs of a joint's record, to be gone through several times; as they stood `at` a moment, if one is asked for. */
export function suppose(inputs: Iterable<Input>, { supposed, at }: Question): SupposedAnswer | NotSupposed {
  const record = ordered(inputs, at as Instant | undefined);
  if (record === undefined) return notThen;
  const joint = lastJoint(record.opened.joint, record.inputs);
  const refused = refusalOf(joint, supposed);
  if (refused !== undefined) return refused;
  if (supposed.kind === 'more time') {
    const names = passNames(record);
    return moreTime(record, supposed) ?? notOne('pass', supposed.pass, names, 'a pass of this joint');
  }
  return ofJoint(record, joint, supposed);
}

const notThen: NotSupposed = {
  problems: [
    {
      field: 'at',
      found: 'a moment before the joint was opened, or after the newest of its record',
      allowed: 'a moment between the two',
    },
  ],
};

type OfJoint = Exclude<Supposition, { kind: 'more time' }>;

function ofJoint(record: Ordered, joint: Joint, supposed: OfJoint): SupposedAnswer | NotSupposed {
  const changed = jointSchema.safeParse(jointAs(supposed)(joint));
  if (!changed.success) return { problems: problems(changed.error, jointAs(supposed)(joint)) };
  const opened = { ...record.opened, joint: jointAs(supposed)(record.opened.joint) };
  const inputs = again(() => inputsAs(supposed, record.inputs));
  const [now, then] = [run(record), run({ ...record, opened, inputs })];
  const remarks = remarksOf(supposed, joint, record);
  const { verdict, ...judged } = then.judged;
  // Findings hang on the far face as it was measured: nobody can say what they would have been.
  const isOpen = remarks.includes('far face was measured');
  return {
    supposition: supposed,
    stood: stoodOf(record, now),
    now: now.judged,
    verdicts: isOpen ? ([] as Verdict[]) : [verdict],
    wouldBe: isOpen ? { passes: [], ...(judged.coreAt === undefined ? {} : { coreAt: judged.coreAt }) } : judged,
    gone: isOpen ? [] : without(now.assessment.findings, then.assessment.findings),
    come: isOpen ? [] : without(then.assessment.findings, now.assessment.findings),
    unsure: [],
    remarks,
  };
}

function remarksOf(supposed: OfJoint, joint: Joint, { inputs }: Ordered): Remark[] {
  switch (supposed.kind) {
    case 'far face insulated':
      return [
        'heated face as measured',
        ...(joint.probes.some((probe) => isOnFarFace(joint, probe)) ? (['far face was measured'] as const) : []),
        ...(joint.heating.face === 'both' ? (['far face had no bearing'] as const) : []),
      ];
    case 'probe left out':
      return [
        'place not measured then',
        ...(hasAbout(inputs, supposed.probe) ? (['entries about the probe left out'] as const) : []),
      ];
    case 'other limits':
      return joint.procedure === undefined ? ['limits of no procedure'] : [];
  }
}

function hasAbout(inputs: Iterable<Input>, probe: string): boolean {
  for (const input of inputs) if (input.type === 'act' && isAbout(input.act, probe)) return true;
  return false;
}

function passNames({ inputs }: Ordered): string[] {
  const names: string[] = [];
  for (const input of inputs) if (input.type === 'act' && input.act.kind === 'pass start') names.push(input.act.pass);
  return names;
}

function refusalOf(joint: Joint, supposed: Supposition): NotSupposed | undefined {
  if (supposed.kind === 'probe left out' && !joint.probes.some(({ id }) => id === supposed.probe))
    return notOne(
      'probe',
      supposed.probe,
      joint.probes.map(({ id }) => id),
      'a probe of this joint',
    );
  if (supposed.kind !== 'other limits') return undefined;
  const { kind: _kind, ...limits } = supposed;
  if (Object.values(limits).some((value) => value !== undefined)) return undefined;
  return {
    problems: [
      { field: '(whole)', found: 'no limit', allowed: `at least one of ${Object.keys(limitNames).join(', ')}` },
    ],
  };
}

const limitNames = {
  preheatMinimumCelsius: true,
  interpassMaximumCelsius: true,
  soakHoldMinutes: true,
  throughThicknessHoldMinutes: true,
} as const;

const notOne = (field: string, found: string, names: readonly string[], what: string): NotSupposed => ({
  problems: [
    {
      field,
      found,
      allowed: names.length === 0 ? `${what}; it has none` : `${what}: ${[...new Set(names)].join(', ')}`,
    },
  ],
});
