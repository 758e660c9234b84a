/** A joint while it is typed: new, corrected or begun as a repair; the requirement that follows from it; and its way to the station. */
import { useComputed, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { JointState } from '../../../server/screen/contract.ts';
import { jointSchema } from '../../../server/weld/joint.ts';
import { getJson, postJson } from '../../feed/http.ts';
import { goTo, jointAddress } from '../../state/route.ts';
import { repairDraft } from './begin-repair.ts';
import { candidateOf, metalCandidateOf, previewOf } from './candidate.ts';
import type { JointDraft } from './draft.ts';
import { draftOf } from './draft-of.ts';
import { emptyDraft } from './empty-draft.ts';
import { showFirst, useDraft } from './use-draft.ts';

export const useEntering = (correcting: string | undefined, repairing?: string) => {
  const from = correcting ?? repairing;
  const place =
    from === undefined ? 'preheat.draft' : `preheat.draft.${repairing === undefined ? '' : 'repair.'}${from}`;
  const form = useDraft(place, emptyDraft);
  const { draft, touched, tried, failure, reason, sending, put } = form;
  const before = useSignal<JointDraft | undefined>(undefined);

  useEffect(() => {
    if (from === undefined || form.wasKept) return;
    void getJson<JointState>(`/api/joints/${encodeURIComponent(from)}`).then((answer) => {
      if (answer.kind === 'ok')
        draft.value = repairing === undefined ? draftOf(answer.value.joint) : repairDraft(answer.value);
      else failure.value = 'The joint could not be fetched from the station; go back and try again.';
    });
  }, []);

  const candidate = useComputed(() => candidateOf(draft.value));
  const metal = useComputed(() => metalCandidateOf(draft.value));
  const preview = useComputed(() => previewOf(draft.value));
  const answer = useComputed(() => (metal.value.ok ? requirement(metal.value.joint, []) : undefined));
  const problems = form.problemsWith(candidate.value.ok ? {} : candidate.value.problems);

  const enter = async (): Promise<void> => {
    tried.value = true;
    failure.value = undefined;
    const now = candidate.peek();
    if (!now.ok) {
      showFirst(Object.keys(now.problems));
      return;
    }
    const who = form.sender();
    if (who === undefined) return;
    if (correcting !== undefined && reason.value.trim() === '') {
      failure.value = 'Say why it is corrected: the reason stands in the record.';
      return;
    }
    const recorded = await form.send(
      (key) =>
        correcting === undefined
          ? postJson('/api/joints', { who, joint: now.joint }, key)
          : postJson(
              `/api/joints/${encodeURIComponent(correcting)}/acts`,
              { who, act: { kind: 'revise', joint: now.joint, reason: reason.value.trim() } },
              key,
            ),
      /^(act\.)?joint\./,
      'Not entered',
    );
    if (recorded) goTo(jointAddress(now.joint.id));
  };

  const open = (text: string): void => {
    const joint = form.fromFile(text, jointSchema, 'a joint');
    if (joint === undefined) return;
    before.value = draft.value;
    put(draftOf(joint));
  };

  return {
    entry: form.entryWith(problems),
    problems,
    tried,
    failure,
    reason,
    sending,
    before,
    candidate: candidate.value,
    metal: metal.value,
    answer: answer.value,
    preview: preview.value,
    enter,
    open,
    startOver(): void {
      before.value = draft.value;
      touched.value = new Set();
      tried.value = false;
      put(emptyDraft);
    },
    bringBack(): void {
      if (before.value !== undefined) put(before.value);
      before.value = undefined;
    },
  };
};
