/** What a person has chosen and said on the page of logs, and how it goes to the station. */
import { signal } from '@preact/signals';
import type { Verdict } from '../../../server/judgement/assessment.ts';
import { deviationsOf } from '../../../server/judgement/people/deviations.ts';
import type { JointState, LogFileView, LogLine, LogsView } from '../../../server/screen/contract.ts';
import type { DispositionAct } from '../../../server/weld/entry.ts';
import { actKey, getJson, postFile } from '../../feed/http.ts';
import { person } from '../../state/person.ts';
import { type Decision, dispositionOf } from '../joint/decision.ts';
import { type ActRow, actsText } from './act-rows.ts';

export interface ChosenFile {
  readonly id: string;
  readonly name: string;
}
export type Said = Readonly<Record<string, unknown>>;

export const joint = signal<{ readonly name: string; readonly value: unknown; readonly taken: boolean } | undefined>(
  undefined,
);
export const files = signal<readonly ChosenFile[]>([]);
/** Answers by the name of their question, for all files. */
export const said = signal<Said>({});
/** What holds for one file in place of that, by the file's id. */
export const saidOf = signal<Readonly<Record<string, Said>>>({});
export const acts = signal<readonly ActRow[]>([]);
export const eventsFile = signal<{ readonly name: string; readonly text: string } | undefined>(undefined);
export const view = signal<LogsView | undefined>(undefined);
export const state = signal<{ readonly kind: 'still' | 'busy' } | { readonly kind: 'failed'; readonly why: string }>({
  kind: 'still',
});
export type Keeping =
  | { readonly kind: 'not yet' | 'busy' }
  | { readonly kind: 'refused'; readonly why: string }
  | { readonly kind: 'kept'; readonly joint: string; readonly verdict: Verdict };
export const keeping = signal<Keeping>({ kind: 'not yet' });

/** What is decided on a deviation before it is kept, by the finding's key. */
export interface Decided {
  readonly decision: Decision | 'open';
  readonly reason: string;
}
export const decided = signal<Readonly<Record<string, Decided>>>({});

/** The acts that say so, of the deviations as they were judged last; undefined while a reason is missing. */
export const decisionActs = (): readonly DispositionAct[] | undefined => {
  const open = deviationsOf(view.value?.assessment?.findings ?? []).open;
  const acts = open.flatMap((finding): DispositionAct[] => {
    const { decision = 'open', reason = '' } = decided.value[finding.key] ?? {};
    return decision === 'open' ? [] : [dispositionOf(finding, decision, reason.trim())];
  });
  return acts.some(({ reason }) => reason === '') ? undefined : acts;
};

const fail = (why: string): void => {
  state.value = { kind: 'failed', why };
};

export const chooseLogs = async (chosen: readonly File[]): Promise<void> => {
  state.value = { kind: 'busy' };
  for (const file of chosen) {
    const answer = await postFile<{ id: string }>('/api/logs', file);
    if (answer.kind !== 'ok')
      return fail(`${file.name} did not reach the station. It may be empty, or larger than 30 MB: cut it.`);
    files.value = [...files.value.filter(({ name }) => name !== file.name), { id: answer.value.id, name: file.name }];
  }
  await ask();
};

export const takeAway = async (file: ChosenFile): Promise<void> => {
  files.value = files.value.filter((each) => each.id !== file.id);
  if (files.value.length === 0) view.value = undefined;
  await ask();
};

export const chooseJointFile = async (file: File): Promise<void> => {
  try {
    joint.value = { name: file.name, value: JSON.parse(await file.text()), taken: false };
  } catch {
    return fail(`${file.name} is no joint file: it is not JSON.`);
  }
  await ask();
};

export const chooseJoint = async (id: string): Promise<void> => {
  const answer = await getJson<JointState>(`/api/joints/${encodeURIComponent(id)}`);
  if (answer.kind !== 'ok') return fail('The station did not answer for that joint. Choose it again.');
  joint.value = { name: answer.value.joint.title, value: answer.value.joint, taken: true };
  await ask();
};

const put = (before: Said, name: string, value: unknown): Said => {
  const { [name]: _, ...rest } = before;
  return value === undefined ? rest : { ...rest, [name]: value };
};

export const say = async (name: string, value: unknown): Promise<void> => {
  said.value = put(said.value, name, value === '' ? undefined : value);
  await ask();
};

/** A clock goes by a zone or by an offset that never changes. */
const rivals: Readonly<Record<string, string>> = { zone: 'offsetMinutes', offsetMinutes: 'zone' };

/** Undefined: as the file has it. */
export const sayOf = async (id: string, name: string, value: unknown): Promise<void> => {
  const rival = value === undefined ? undefined : rivals[name];
  const before = saidOf.value[id] ?? {};
  saidOf.value = {
    ...saidOf.value,
    [id]: put(rival === undefined ? before : put(before, rival, undefined), name, value),
  };
  await ask();
};

export const asItWasFound = async (id: string): Promise<void> => {
  saidOf.value = { ...saidOf.value, [id]: {} };
  await ask();
};

/** Number of the last question: a slow answer to an old one is not shown. */
let asked = 0;

export const ask = async (): Promise<void> => {
  keeping.value = { kind: 'not yet' };
  const body = question();
  if (body === undefined) {
    state.value = { kind: 'still' };
    return;
  }
  asked += 1;
  const mine = asked;
  state.value = { kind: 'busy' };
  const answer = await post<LogsView>('/api/logs/judge', body);
  if (mine !== asked) return;
  if (answer.kind === 'ok') {
    view.value = answer.value;
    state.value = { kind: 'still' };
    return;
  }
  view.value = undefined;
  fail(
    answer.kind === 'problems'
      ? problemsText(answer.problems)
      : 'The station did not answer. A long log takes a while: ask again.',
  );
};

/** As a file, for its patience: a day of readings takes longer to judge than a screen waits for an act. */
const post = <T>(path: string, body: unknown, key?: string) =>
  postFile<T>(path, new Blob([JSON.stringify(body)], { type: 'application/json' }), key);

const problemsText = (
  problems: readonly { readonly field: string; readonly found: string; readonly allowed: string }[],
): string => {
  const told = problems
    .slice(0, problemsTold)
    .map(({ field, found, allowed }) => `${field}: found ${found}; allowed is ${allowed}.`);
  const more = problems.length - told.length;
  return `${told.join(' ')}${more > 0 ? ` And ${more} more.` : ''}`;
};
const problemsTold = 4;

export const report = async (): Promise<Blob | undefined> => {
  try {
    const response = await fetch('/api/logs/report.pdf', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(question()),
    });
    return response.ok ? await response.blob() : undefined;
  } catch {
    return undefined;
  }
};

export const keep = async (id: string, decisions: readonly DispositionAct[]): Promise<void> => {
  keeping.value = { kind: 'busy' };
  const body = { ...question(), id, who: person.value, ...(decisions.length === 0 ? {} : { decisions }) };
  const answer = await post<{ joint: string; verdict: Verdict }>('/api/logs/keep', body, actKey());
  if (answer.kind === 'ok') keeping.value = { kind: 'kept', ...answer.value };
  else {
    const why =
      answer.kind === 'problems'
        ? problemsText(answer.problems)
        : answer.kind === 'not recording'
          ? `The station cannot record at present: ${answer.because}`
          : answer.kind === 'refused' && answer.because !== ''
            ? answer.because
            : 'The station did not answer. Look under the joints whether it is there before you try again.';
    keeping.value = { kind: 'refused', why };
  }
};

const question = () =>
  joint.value === undefined || files.value.length === 0
    ? undefined
    : {
        joint: joint.value.value,
        files: files.value.map(({ id, name }) => ({ id, name, said: saidOf.value[id] ?? {} })),
        said: said.value,
        events: events(),
      };

const events = (): readonly { readonly name?: string; readonly text: string }[] => [
  ...(acts.value.length === 0 ? [] : [{ text: actsText(acts.value) }]),
  ...(eventsFile.value === undefined ? [] : [eventsFile.value]),
];

/** What each column of the file is, as read or as said; empty where it is left out. */
export const columnRows = ({
  guess,
}: Pick<LogFileView, 'guess'>): readonly {
  readonly column: string;
  readonly probe: string;
  readonly unit: string;
}[] => {
  if (guess === undefined) return [];
  const others = guess.header.filter((each) => each !== '' && each !== guess.timeColumn && each !== guess.dateColumn);
  return [...new Set(others)].map((column) => {
    const found = guess.probes.find((each) => each.column === column);
    return { column, probe: found?.probe ?? '', unit: found?.unit ?? '' };
  });
};

/** The questions that are open, each once, and those that were answered and may be answered anew. */
export const questionsOf = (read: LogsView, answers: Said) => {
  const all = [...read.problems, ...read.files.flatMap(({ problems }) => problems)];
  const open = new Map<string, LogLine>();
  for (const each of all)
    if (each.question !== undefined && !open.has(each.question.asks)) open.set(each.question.asks, each);
  return { open, answered: Object.keys(answers).filter((name) => !open.has(name)) };
};
