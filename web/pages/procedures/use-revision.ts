/** A revision while it is typed: begun from the newest one, kept on this device, and on its way to the station. */
import { useComputed, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { comparedWithTest } from '../../../server/metallurgy/qualified-range.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { type KeptRevision, newestOf, revisionsOf } from '../../../server/weld/procedure-act.ts';
import { type ProcedureRevision, procedureRevisionSchema } from '../../../server/weld/procedure-revision.ts';
import { actKey, postJson } from '../../feed/http.ts';
import { sentOf } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { nobodyYet, person } from '../../state/person.ts';
import { askProcedures, procedures } from '../../state/procedures.ts';
import { goTo, procedureAddress } from '../../state/route.ts';
import { contact } from '../../state/station.ts';
import { type Problems, revisionCandidateOf, sentence } from '../new-joint/candidate.ts';
import type { JointDraft } from '../new-joint/draft.ts';
import { draftFrom, emptyDraft, isDraft } from '../new-joint/empty-draft.ts';
import type { Entry } from '../new-joint/entry.tsx';
import { revisionDraft } from '../new-joint/procedure-draft.ts';
import { showFirst } from '../new-joint/use-entering.ts';

const begin: JointDraft = { ...emptyDraft, procedure: { ...emptyDraft.procedure, bound: true } };

/** `of`: the procedure that gets another revision; absent: a new procedure. */
export const useRevision = (of: string | undefined) => {
  const place = `preheat.procedure.${of ?? ''}`;
  const found = useMemo(() => kept(place, isDraft), [place]);
  const draft = useSignal<JointDraft>(found === undefined ? begin : draftFrom(found));
  const reason = useSignal('');
  const tried = useSignal(false);
  const touched = useSignal<ReadonlySet<string>>(new Set());
  const fromStation = useSignal<Problems>({});
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);
  const key = useSignal(actKey());
  const state = procedures.value;
  const all = state.kind === 'there' ? state.value : [];
  const before = of === undefined ? undefined : (newestOf(all, of) ?? revisionsOf(all, of).at(-1));

  useEffect(() => void askProcedures(), []);
  const put = (next: JointDraft): void => {
    draft.value = next;
    key.value = actKey();
    keep(place, next);
  };
  /** Its own name is the one thing that the new revision cannot have from the one before. */
  const startFrom = (from: ProcedureRevision): void => {
    const values = revisionDraft(from, draft.peek().units);
    put({ ...values, procedure: { ...values.procedure, revision: of === undefined ? values.procedure.revision : '' } });
  };
  useEffect(() => {
    if (found === undefined && before !== undefined) startFrom(before.revision);
  }, [before?.sha256]);

  const candidate = useComputed(() => revisionCandidateOf(draft.value));
  const problems: Problems = candidate.value.ok
    ? fromStation.value
    : { ...fromStation.value, ...candidate.value.problems };
  const entry: Entry = {
    draft: draft.value,
    change: (part) => put({ ...draft.value, ...part }),
    replace: put,
    problem: (field) => (tried.value || touched.value.has(field) ? problems[field] : undefined),
    touch(field) {
      if (!touched.value.has(field)) touched.value = new Set([...touched.value, field]);
      if (field in fromStation.value)
        fromStation.value = Object.fromEntries(Object.entries(fromStation.value).filter(([name]) => name !== field));
    },
  };
  const outside = candidate.value.ok
    ? comparedWithTest(candidate.value.revision).filter(({ standing }) => standing === 'outside')
    : [];
  const reasonNeeded = before !== undefined || outside.length > 0;

  const record = async (): Promise<void> => {
    tried.value = true;
    failure.value = undefined;
    const now = candidate.peek();
    if (!now.ok) return showFirst(Object.keys(now.problems));
    const who = person.peek();
    const why = reason.peek().trim();
    if (who === undefined) failure.value = nobodyYet();
    else if (contact.peek().kind !== 'live')
      failure.value = 'Not sent: the station is not heard. What you typed is kept on this device.';
    else if (reasonNeeded && why === '')
      failure.value =
        outside.length > 0
          ? 'Say why it is recorded outside its qualified range: the reason stands in the record.'
          : 'Say why there is a new revision: the reason stands in the record.';
    if (failure.value !== undefined) return;
    sending.value = true;
    const body = { who, revision: now.revision, ...(why === '' ? {} : { reason: why }) };
    const sent = sentOf(await postJson('/api/procedures', body, key.peek()));
    sending.value = false;
    if (sent.kind === 'recorded') {
      keep(place, undefined);
      await askProcedures();
      goTo(procedureAddress(now.revision.procedure.id));
    } else if (sent.kind === 'not recorded') failure.value = sent.why;
    else {
      const told = Object.entries(sent.problems).map(([field, problem]) => [field.replace(/^revision\./, ''), problem]);
      fromStation.value = Object.fromEntries(told);
      failure.value = `Not recorded: ${Object.values(sent.problems).join('; ')}`;
      showFirst(Object.keys(fromStation.value));
    }
  };

  const open = (text: string): void => {
    failure.value = undefined;
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch (cause) {
      failure.value = `This file is not JSON: ${cause instanceof Error ? cause.message : ''}. Choose a procedure file.`;
      return;
    }
    const parsed = procedureRevisionSchema.safeParse(json);
    if (parsed.success) {
      startFrom(parsed.data);
      return;
    }
    failure.value = `This file is not a procedure: ${problemsIn(parsed.error, json, procedureRevisionSchema)
      .slice(0, 5)
      .map(({ field, found: was, allowed }) => `${field}: ${sentence(was, allowed)}`)
      .join(' ')}`;
  };

  return {
    entry,
    problems,
    tried: tried.value,
    failure: failure.value,
    sending: sending.value,
    reason,
    reasonNeeded,
    before: before as KeptRevision | undefined,
    candidate: candidate.value,
    record,
    open,
    startOver: () => (before === undefined ? put(begin) : startFrom(before.revision)),
  };
};
