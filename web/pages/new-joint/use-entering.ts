/**
 * The state of the form: what was typed, kept on this device; what is wrong with it; the requirement that follows
 * from it; and the way to the station. Nothing typed is lost by an error, a reload or a lost connection.
 */
import { useComputed, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { JointState } from '../../../server/screen/contract.ts';
import { jointSchema } from '../../../server/weld/joint.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { actKey, getJson, postJson } from '../../feed/http.ts';
import { sentOf } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { nobodyYet, person } from '../../state/person.ts';
import { goTo, jointAddress } from '../../state/route.ts';
import { contact } from '../../state/station.ts';
import { repairDraft } from './begin-repair.ts';
import { candidateOf, metalCandidateOf, type Problems, previewOf, sentence } from './candidate.ts';
import type { JointDraft } from './draft.ts';
import { draftOf } from './draft-of.ts';
import { draftFrom, emptyDraft, isDraft } from './empty-draft.ts';
import type { Entry } from './entry.tsx';

export const useEntering = (correcting: string | undefined, repairing?: string) => {
  const from = correcting ?? repairing;
  const place =
    from === undefined ? 'preheat.draft' : `preheat.draft.${repairing === undefined ? '' : 'repair.'}${from}`;
  const found = useMemo(() => kept(place, isDraft), [place]);
  const draft = useSignal<JointDraft>(found === undefined ? emptyDraft : draftFrom(found));
  const before = useSignal<JointDraft | undefined>(undefined);
  const touched = useSignal<ReadonlySet<string>>(new Set());
  const tried = useSignal(false);
  const fromStation = useSignal<Problems>({});
  const failure = useSignal<string | undefined>(undefined);
  const reason = useSignal('');
  const sending = useSignal(false);
  const key = useSignal(actKey());

  useEffect(() => {
    if (from === undefined || found !== undefined) return;
    void getJson<JointState>(`/api/joints/${encodeURIComponent(from)}`).then((answer) => {
      if (answer.kind === 'ok')
        draft.value = repairing === undefined ? draftOf(answer.value.joint) : repairDraft(answer.value);
      else failure.value = 'The joint could not be fetched from the station; go back and try again.';
    });
  }, []);

  const put = (next: JointDraft): void => {
    draft.value = next;
    key.value = actKey();
    keep(place, next);
  };
  const candidate = useComputed(() => candidateOf(draft.value));
  const metal = useComputed(() => metalCandidateOf(draft.value));
  const preview = useComputed(() => previewOf(draft.value));
  const answer = useComputed(() => (metal.value.ok ? requirement(metal.value.joint, []) : undefined));
  const problems: Problems = candidate.value.ok
    ? fromStation.value
    : { ...fromStation.value, ...candidate.value.problems };
  const entry: Entry = {
    draft: draft.value,
    change(part) {
      put({ ...draft.value, ...part });
    },
    replace: put,
    problem: (field) => (tried.value || touched.value.has(field) ? problems[field] : undefined),
    touch(field) {
      if (!touched.value.has(field)) touched.value = new Set([...touched.value, field]);
      if (field in fromStation.value)
        fromStation.value = Object.fromEntries(Object.entries(fromStation.value).filter(([name]) => name !== field));
    },
  };

  const enter = async (): Promise<void> => {
    tried.value = true;
    failure.value = undefined;
    const now = candidate.peek();
    if (!now.ok) {
      showFirst(Object.keys(now.problems));
      return;
    }
    const who = person.peek();
    if (who === undefined) {
      failure.value = nobodyYet();
      return;
    }
    if (contact.peek().kind !== 'live') {
      failure.value = 'Not sent: the station is not heard. What you typed is kept on this device.';
      return;
    }
    if (correcting !== undefined && reason.value.trim() === '') {
      failure.value = 'Say why it is corrected: the reason stands in the record.';
      return;
    }
    sending.value = true;
    const sent = sentOf(
      correcting === undefined
        ? await postJson('/api/joints', { who, joint: now.joint }, key.peek())
        : await postJson(
            `/api/joints/${encodeURIComponent(correcting)}/acts`,
            { who, act: { kind: 'revise', joint: now.joint, reason: reason.value.trim() } },
            key.peek(),
          ),
    );
    sending.value = false;
    if (sent.kind === 'recorded') {
      keep(place, undefined);
      goTo(jointAddress(now.joint.id));
      return;
    }
    if (sent.kind === 'not recorded') {
      failure.value = sent.why;
      return;
    }
    fromStation.value = Object.fromEntries(
      Object.entries(sent.problems).map(([field, problem]) => [field.replace(/^(act\.)?joint\./, ''), problem]),
    );
    failure.value = `Not entered: ${Object.values(sent.problems).join('; ')}`;
    showFirst(Object.keys(fromStation.value));
  };

  const open = (text: string): void => {
    failure.value = undefined;
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch (cause) {
      failure.value = `This file is not JSON: ${cause instanceof Error ? cause.message : ''}. Choose a joint file.`;
      return;
    }
    const parsed = jointSchema.safeParse(json);
    if (!parsed.success) {
      failure.value = `This file is not a joint: ${problemsIn(parsed.error, json)
        .slice(0, 5)
        .map(({ field, found, allowed }) => `${field}: ${sentence(found, allowed)}`)
        .join(' ')}`;
      return;
    }
    before.value = draft.value;
    put(draftOf(parsed.data));
  };

  return {
    entry,
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

/** Brings the first field with a problem into sight and puts the keyboard there. */
export const showFirst = (fields: readonly string[]): void => {
  requestAnimationFrame(() => {
    for (const field of fields) {
      const found = document.querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"]`);
      if (found !== null) {
        // A field in a group that is folded away cannot be seen or reached.
        for (
          let group = found.closest('details');
          group !== null;
          group = group.parentElement?.closest('details') ?? null
        )
          group.open = true;
        found.scrollIntoView({ block: 'center' });
        found.focus({ preventScroll: true });
        return;
      }
    }
  });
};
