/**
 * From what was typed to a joint, or to what is still wrong with it, field by field. A number that is not
 * plainly one number is told as such; an empty one that is needed is asked for.
 */
import type { z } from 'zod';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { type Probe, probeSchema } from '../../../server/weld/probe.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { type ProcedureRevision, procedureRevisionSchema } from '../../../server/weld/procedure-revision.ts';
import { begun } from '../../../server/wording/list.ts';
import type { JointDraft } from './draft.ts';
import { type RawJoint, rawJoint, rawRevision } from './raw-joint.ts';

/** By path of the field, as in "parts.0.thicknessMillimetres". */
export type Problems = Readonly<Record<string, string>>;
export type Candidate =
  | { readonly ok: true; readonly joint: Joint }
  | { readonly ok: false; readonly problems: Problems };

export const candidateOf = (draft: JointDraft): Candidate => judged(rawJoint(draft));

/** Only what the requirement hangs on: names, probes and an arc signal may still be missing while one types. */
export const metalCandidateOf = (draft: JointDraft): Candidate => {
  const named = {
    ...draft,
    id: 'draft',
    title: 'draft',
    probes: [],
    arc: { board: '', input: '' },
    procedure: { ...draft.procedure, id: draft.procedure.id || 'draft', revision: draft.procedure.revision || 'draft' },
  };
  return judged(rawJoint(named));
};

export type RevisionCandidate =
  | { readonly ok: true; readonly revision: ProcedureRevision }
  | { readonly ok: false; readonly problems: Problems };

/** The procedure alone, as a revision of it would be recorded. */
export const revisionCandidateOf = (draft: JointDraft): RevisionCandidate => {
  const raw = rawRevision(draft);
  const parsed = procedureRevisionSchema.safeParse(raw.joint);
  const problems = problemsOf(raw, parsed.success ? undefined : parsed.error, procedureRevisionSchema);
  return Object.keys(problems).length === 0 && parsed.success
    ? { ok: true, revision: parsed.data }
    : { ok: false, problems };
};

/** What can be drawn already: the parts, and those probes that are whole. Undefined while the parts are not. */
export const previewOf = (draft: JointDraft): Joint | undefined => {
  const metal = metalCandidateOf(draft);
  if (!metal.ok) return undefined;
  const whole = rawJoint(draft).joint as { readonly probes: readonly unknown[] };
  const parts = new Set(metal.joint.parts.map((part) => part.id));
  const probes = whole.probes.flatMap((probe): Probe[] => {
    const parsed = probeSchema.safeParse(probe);
    return parsed.success && (parsed.data.place === undefined || parts.has(parsed.data.place.part))
      ? [parsed.data]
      : [];
  });
  return { ...metal.joint, probes };
};

const judged = (raw: RawJoint): Candidate => {
  const parsed = jointSchema.safeParse(raw.joint);
  const problems = problemsOf(raw, parsed.success ? undefined : parsed.error, jointSchema);
  return Object.keys(problems).length === 0 && parsed.success
    ? { ok: true, joint: parsed.data }
    : { ok: false, problems };
};

const problemsOf = (
  { joint, problems: unread, typed }: RawJoint,
  error: z.ZodError | undefined,
  schema: z.ZodType,
): Problems => {
  const problems: Record<string, string> = { ...unread };
  if (error !== undefined) {
    for (const { field, found, allowed } of problemsIn(error, joint, schema)) {
      const [inches, metric] = typed[field] ?? [];
      problems[field] ??=
        inches === undefined
          ? sentence(found, allowed)
          : `${inches} is not allowed here: in ${metric}, ${allowed}; this is ${found.replace('the number ', '')} ${metric}.`;
    }
  }
  return problems;
};

export const sentence = (found: string, allowed: string): string =>
  found === 'nothing' || found === 'empty text' || found === ''
    ? `Needed: ${allowed}.`
    : `${begun(found)} is not allowed here: ${allowed}.`;
