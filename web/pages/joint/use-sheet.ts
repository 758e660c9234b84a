/** The form of one act: its text kept on this device, its way to the station, and what came of it. */
import { useSignal } from '@preact/signals';
import type { Act } from '../../../server/weld/entry.ts';
import { actKey } from '../../feed/http.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { type Sent, sendAct } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { person } from '../../state/person.ts';
import { serverNow } from '../../state/station.ts';
import { actOf, type Draft, formField, freshDraft, type SheetKind } from './act-draft.ts';

export interface Sheet {
  readonly draft: Draft;
  readonly problems: Readonly<Record<string, string>>;
  readonly failure: string | undefined;
  readonly sending: boolean;
  set(field: string, value: string): void;
  /** Makes the act from the draft and sends it. */
  submit(): Promise<boolean>;
  /** Sends an act that was made elsewhere. */
  send(act: Act): Promise<boolean>;
  fail(why: string): void;
}

const isDraft = (value: unknown): value is { draft: Draft; key: string } =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as { key?: unknown }).key === 'string' &&
  typeof (value as { draft?: unknown }).draft === 'object';

export const useSheet = (kind: SheetKind, live: LiveJoint, done: (act: Act) => void): Sheet => {
  const place = `preheat.act.${live.joint.id}.${kind}`;
  const stored = useSignal(
    kept(place, isDraft) ?? { draft: freshDraft(kind, live, person.peek()?.name ?? ''), key: actKey() },
  );
  const problems = useSignal<Readonly<Record<string, string>>>({});
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);

  const take = (sent: Sent, act: Act): boolean => {
    if (sent.kind === 'recorded') {
      keep(place, undefined);
      done(act);
      return true;
    }
    if (sent.kind === 'wrong') {
      problems.value = Object.fromEntries(
        Object.entries(sent.problems).map(([field, problem]) => [formField(field), problem]),
      );
      failure.value = `Not recorded: ${Object.values(sent.problems).join('; ')}`;
    } else failure.value = sent.why;
    return false;
  };

  const send = async (act: Act): Promise<boolean> => {
    const who = person.peek();
    if (who === undefined) {
      failure.value = 'Say who you are first, at the top of the page: every entry needs a name.';
      return false;
    }
    sending.value = true;
    const sent = await sendAct(live.joint.id, who, act, stored.peek().key);
    sending.value = false;
    return take(sent, act);
  };

  return {
    draft: stored.value.draft,
    problems: problems.value,
    failure: failure.value,
    sending: sending.value,
    set(field, value) {
      // Another text is another act: it must not be taken for a repeat of the one before.
      stored.value = { draft: { ...stored.value.draft, [field]: value }, key: actKey() };
      problems.value = Object.fromEntries(Object.entries(problems.value).filter(([name]) => name !== field));
      keep(place, stored.value);
    },
    async submit() {
      failure.value = undefined;
      const now = serverNow.peek();
      if (now === undefined) {
        failure.value = 'Not sent: the station has not been heard yet.';
        return false;
      }
      if (kind === 'attach' || kind === 'accept') return false;
      const made = actOf(kind, stored.peek().draft, now);
      if (made.ok) return send(made.act);
      problems.value = made.problems;
      return false;
    },
    send,
    fail(why) {
      failure.value = why;
    },
  };
};
