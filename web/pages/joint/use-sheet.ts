/** The form of one act: its text kept on this device, its way to the station, and what came of it. */
import { useSignal } from '@preact/signals';
import type { Act } from '../../../server/weld/entry.ts';
import { actKey } from '../../feed/http.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { type Sent, sendAct } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { nobodyYet, person } from '../../state/person.ts';
import { serverNow } from '../../state/station.ts';
import { actOf, type Draft, formField, freshDraft, isPlain, type SheetKind } from './act-draft.ts';
import { rememberInstrument } from './hand-draft.ts';

export interface Sheet {
  readonly draft: Draft;
  readonly problems: Readonly<Record<string, string>>;
  readonly failure: string | undefined;
  readonly sending: boolean;
  set(field: string, value: string): void;
  /** What an entry of the form is given: its text, what is wrong with it, and where what is typed goes. */
  entry(field: string, unsaid?: string): SheetEntry;
  /** Makes the act from the draft and sends it. */
  submit(): Promise<boolean>;
  /** Sends an act that was made elsewhere. */
  send(act: Act): Promise<boolean>;
  fail(why: string): void;
  /** What is wrong with the entries, by field. */
  tell(problems: Readonly<Record<string, string>>): void;
}

interface SheetEntry {
  readonly value: string;
  readonly problem: string | undefined;
  readonly onValue: (value: string) => void;
}

interface Kept {
  readonly draft: Draft;
  readonly key: string;
  /** When it was typed, by this device. */
  readonly at: number;
}

const isKept = (value: unknown): value is Kept =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as { key?: unknown }).key === 'string' &&
  typeof (value as { at?: unknown }).at === 'number' &&
  typeof (value as { draft?: unknown }).draft === 'object';

/** After this, "five minutes ago" and "pass 3" no longer mean what they meant; only free text outlives it. */
const agesAfterMilliseconds = 5 * 60_000;
const aging = ['ago', 'state', 'pass', 'celsius', 'shows', 'probe', 'air', 'progress', 'deed', 'step'];

/** What was typed before, as far as it still means the same. */
const fromKept = (place: string, fresh: Draft): Kept => {
  const before = kept(place, isKept);
  if (before === undefined) return { draft: fresh, key: actKey(), at: Date.now() };
  if (Date.now() - before.at < agesAfterMilliseconds) return before;
  const lasting = Object.entries(before.draft).filter(([field]) => !aging.includes(field));
  return { draft: { ...fresh, ...Object.fromEntries(lasting) }, key: actKey(), at: Date.now() };
};

/** `preset`: what the form begins with, and of which thing it is where there are several. */
export const useSheet = (
  kind: SheetKind,
  live: LiveJoint,
  done: (act: Act) => void,
  preset?: { readonly of: string; readonly draft: Draft },
): Sheet => {
  const place = `preheat.act.${live.joint.id}.${kind}${preset === undefined ? '' : `.${preset.of}`}`;
  const fresh = { ...freshDraft(kind, live, person.peek()?.name ?? ''), ...preset?.draft };
  const stored = useSignal(fromKept(place, fresh));
  const problems = useSignal<Readonly<Record<string, string>>>({});
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);

  const take = (sent: Sent, act: Act): boolean => {
    if (sent.kind === 'recorded') {
      if (act.kind === 'contact reading') rememberInstrument(act);
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
      failure.value = nobodyYet();
      return false;
    }
    sending.value = true;
    const sent = await sendAct(live.joint.id, who, act, stored.peek().key);
    sending.value = false;
    return take(sent, act);
  };

  const set = (field: string, value: string): void => {
    // Another text is another act: it must not be taken for a repeat of the one before.
    failure.value = undefined;
    stored.value = { draft: { ...stored.value.draft, [field]: value }, key: actKey(), at: Date.now() };
    problems.value = Object.fromEntries(Object.entries(problems.value).filter(([name]) => name !== field));
    keep(place, stored.value);
  };

  return {
    draft: stored.value.draft,
    problems: problems.value,
    failure: failure.value,
    sending: sending.value,
    set,
    entry: (field, unsaid = '') => ({
      value: stored.value.draft[field] ?? unsaid,
      problem: problems.value[field],
      onValue: (value) => set(field, value),
    }),
    async submit() {
      failure.value = undefined;
      const now = serverNow.peek();
      if (now === undefined) {
        failure.value = 'Not sent: the station has not been heard yet.';
        return false;
      }
      if (!isPlain(kind)) return false;
      const made = actOf(kind, stored.peek().draft, now, live.joint);
      if (made.ok) return send(made.act);
      problems.value = made.problems;
      return false;
    },
    send,
    fail(why) {
      failure.value = why;
    },
    tell(found) {
      problems.value = found;
    },
  };
};
