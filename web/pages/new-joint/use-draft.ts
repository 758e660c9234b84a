/**
 * What is typed into the form of a joint or of a procedure: kept on this device, its problems shown once a field was left or the
 * form was tried, and its way to the station. Nothing typed is lost by an error, a reload or a lost connection.
 */
import { type Signal, useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { z } from 'zod';
import type { Person } from '../../../server/weld/person.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { type Answer, actKey } from '../../feed/http.ts';
import { sentOf } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { nobodyYet, person } from '../../state/person.ts';
import { contact } from '../../state/station.ts';
import { type Problems, sentence } from './candidate.ts';
import type { JointDraft } from './draft.ts';
import { draftFrom, isDraft } from './empty-draft.ts';
import type { Entry } from './entry.tsx';

type Post = (key: string) => Promise<Answer<{ readonly position: number }>>;

/** `place`: where it is kept on this device; `begin`: what it begins with where nothing is. */
export const useDraft = (place: string, begin: JointDraft) => {
  const found = useMemo(() => kept(place, isDraft), [place]);
  const draft = useSignal<JointDraft>(found === undefined ? begin : draftFrom(found));
  const touched = useSignal<ReadonlySet<string>>(new Set());
  const tried = useSignal(false);
  const fromStation = useSignal<Problems>({});
  const failure = useSignal<string | undefined>(undefined);
  const reason = useSignal('');
  const sending = useSignal(false);
  // Another text is another entry: it must not be taken for a repeat of the one before.
  const key = useSignal(actKey());

  const put = (next: JointDraft): void => {
    draft.value = next;
    key.value = actKey();
    keep(place, next);
  };
  /** All that is wrong: here, and what the station said of what was sent. */
  const problemsWith = (here: Problems): Problems => ({ ...fromStation.value, ...here });
  const entryWith = (problems: Problems): Entry => ({
    draft: draft.value,
    change: (part) => put({ ...draft.value, ...part }),
    replace: put,
    problem: (field) => (tried.value || touched.value.has(field) ? problems[field] : undefined),
    touch(field) {
      if (!touched.value.has(field)) touched.value = new Set([...touched.value, field]);
      if (field in fromStation.value)
        fromStation.value = Object.fromEntries(Object.entries(fromStation.value).filter(([name]) => name !== field));
    },
  });
  /** Who sends it, or nobody, with the reason told. */
  const sender = (): Person | undefined => {
    const who = person.peek();
    if (who === undefined) failure.value = nobodyYet();
    else if (contact.peek().kind !== 'live')
      failure.value = 'Not sent: the station is not heard. What you typed is kept on this device.';
    else return who;
    return undefined;
  };
  /** True once it is recorded; `said`: what the station puts before the name of a field. */
  const send = async (post: Post, said: RegExp, refused: string): Promise<boolean> => {
    sending.value = true;
    const sent = sentOf(await post(key.peek()));
    sending.value = false;
    if (sent.kind === 'recorded') {
      keep(place, undefined);
      return true;
    }
    if (sent.kind === 'not recorded') failure.value = sent.why;
    else {
      fromStation.value = Object.fromEntries(
        Object.entries(sent.problems).map(([field, problem]) => [field.replace(said, ''), problem]),
      );
      failure.value = `${refused}: ${Object.values(sent.problems).join('; ')}`;
      showFirst(Object.keys(fromStation.value));
    }
    return false;
  };
  /** What a file holds; what is wrong with it is told. `what`: "a joint", "a procedure". */
  const fromFile = <Schema extends z.ZodType>(
    text: string,
    schema: Schema,
    what: string,
  ): z.output<Schema> | undefined => {
    failure.value = undefined;
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch (cause) {
      failure.value = `This file is not JSON: ${cause instanceof Error ? cause.message : ''}. Choose ${what} file.`;
      return undefined;
    }
    const parsed = schema.safeParse(json);
    if (parsed.success) return parsed.data;
    failure.value = `This file is not ${what}: ${problemsIn(parsed.error, json, schema)
      .slice(0, 5)
      .map(({ field, found: was, allowed }) => `${field}: ${sentence(was, allowed)}`)
      .join(' ')}`;
    return undefined;
  };

  return {
    draft: draft as Signal<JointDraft>,
    wasKept: found !== undefined,
    touched,
    tried,
    failure,
    reason,
    sending,
    put,
    problemsWith,
    entryWith,
    sender,
    send,
    fromFile,
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
