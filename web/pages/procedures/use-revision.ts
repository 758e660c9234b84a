/** A revision while it is typed: begun from the newest one, and on its way to the station. */
import { useComputed } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { comparedWithTest } from '../../../server/metallurgy/qualified-range.ts';
import { type KeptRevision, newestOf, revisionsOf } from '../../../server/weld/procedure-act.ts';
import { type ProcedureRevision, procedureRevisionSchema } from '../../../server/weld/procedure-revision.ts';
import { postJson } from '../../feed/http.ts';
import { askProcedures, procedures } from '../../state/procedures.ts';
import { goTo, procedureAddress } from '../../state/route.ts';
import { revisionCandidateOf } from '../new-joint/candidate.ts';
import type { JointDraft } from '../new-joint/draft.ts';
import { emptyDraft } from '../new-joint/empty-draft.ts';
import { revisionDraft } from '../new-joint/procedure-draft.ts';
import { showFirst, useDraft } from '../new-joint/use-draft.ts';

const begin: JointDraft = { ...emptyDraft, procedure: { ...emptyDraft.procedure, bound: true } };

/** `of`: the procedure that gets another revision; absent: a new procedure. */
export const useRevision = (of: string | undefined) => {
  const form = useDraft(`preheat.procedure.${of ?? ''}`, begin);
  const { draft, reason, tried, failure, sending, put } = form;
  const state = procedures.value;
  const all = state.kind === 'there' ? state.value : [];
  const before = of === undefined ? undefined : (newestOf(all, of) ?? revisionsOf(all, of).at(-1));

  useEffect(() => void askProcedures(), []);
  /** Its own name is the one thing that the new revision cannot have from the one before. */
  const startFrom = (from: ProcedureRevision): void => {
    const values = revisionDraft(from, draft.peek().units);
    put({ ...values, procedure: { ...values.procedure, revision: of === undefined ? values.procedure.revision : '' } });
  };
  useEffect(() => {
    if (!form.wasKept && before !== undefined) startFrom(before.revision);
  }, [before?.sha256]);

  const candidate = useComputed(() => revisionCandidateOf(draft.value));
  const problems = form.problemsWith(candidate.value.ok ? {} : candidate.value.problems);
  const outside = candidate.value.ok
    ? comparedWithTest(candidate.value.revision).filter(({ standing }) => standing === 'outside')
    : [];
  const reasonNeeded = before !== undefined || outside.length > 0;

  const record = async (): Promise<void> => {
    tried.value = true;
    failure.value = undefined;
    const now = candidate.peek();
    if (!now.ok) return showFirst(Object.keys(now.problems));
    const who = form.sender();
    if (who === undefined) return;
    const why = reason.peek().trim();
    if (reasonNeeded && why === '') {
      failure.value =
        outside.length > 0
          ? 'Say why it is recorded outside its qualified range: the reason stands in the record.'
          : 'Say why there is a new revision: the reason stands in the record.';
      return;
    }
    const body = { who, revision: now.revision, ...(why === '' ? {} : { reason: why }) };
    if (!(await form.send((key) => postJson('/api/procedures', body, key), /^revision\./, 'Not recorded'))) return;
    await askProcedures();
    goTo(procedureAddress(now.revision.procedure.id));
  };

  return {
    entry: form.entryWith(problems),
    problems,
    tried: tried.value,
    failure: failure.value,
    sending: sending.value,
    reason,
    reasonNeeded,
    before: before as KeptRevision | undefined,
    candidate: candidate.value,
    record,
    open(text: string): void {
      const revision = form.fromFile(text, procedureRevisionSchema, 'a procedure');
      if (revision !== undefined) startFrom(revision);
    },
    startOver: () => (before === undefined ? put(begin) : startFrom(before.revision)),
  };
};
