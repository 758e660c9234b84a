/** What a person has chosen and said on the page of logs, and how it goes to the station. Nothing of it is recorded. */
import { signal } from '@preact/signals';
import type { JointState, LogFileView, LogLine, LogsView } from '../../../server/screen/contract.ts';
import { getJson, postFile } from '../../feed/http.ts';

export interface ChosenFile {
  readonly id: string;
  readonly name: string;
}

export interface ActRow {
  readonly time: string;
  readonly kind: string;
  readonly who: string;
  readonly pass: string;
  readonly passKind: string;
  readonly side: string;
}

export const joint = signal<{ readonly name: string; readonly value: unknown } | undefined>(undefined);
export const files = signal<readonly ChosenFile[]>([]);
/** Answers by the name of their question. */
export const said = signal<Readonly<Record<string, unknown>>>({});
export const acts = signal<readonly ActRow[]>([]);
export const eventsFile = signal<{ readonly name: string; readonly text: string } | undefined>(undefined);
export const view = signal<LogsView | undefined>(undefined);
export const state = signal<{ readonly kind: 'still' | 'busy' } | { readonly kind: 'failed'; readonly why: string }>({
  kind: 'still',
});

const fail = (why: string): void => {
  state.value = { kind: 'failed', why };
};

export const chooseLogs = async (chosen: readonly File[]): Promise<void> => {
  state.value = { kind: 'busy' };
  for (const file of chosen) {
    const answer = await postFile<{ id: string }>('/api/logs', file);
    if (answer.kind !== 'ok')
      return fail(`${file.name} did not reach the station. It may be larger than 30 MB: cut it.`);
    files.value = [...files.value.filter(({ name }) => name !== file.name), { id: answer.value.id, name: file.name }];
  }
  await ask();
};

export const chooseJointFile = async (file: File): Promise<void> => {
  try {
    joint.value = { name: file.name, value: JSON.parse(await file.text()) };
  } catch {
    return fail(`${file.name} is no joint file: it is not JSON.`);
  }
  await ask();
};

export const chooseJoint = async (id: string): Promise<void> => {
  const answer = await getJson<JointState>(`/api/joints/${encodeURIComponent(id)}`);
  if (answer.kind !== 'ok') return fail('The station did not answer for that joint. Choose it again.');
  joint.value = { name: answer.value.joint.title, value: answer.value.joint };
  await ask();
};

export const say = async (name: string, value: unknown): Promise<void> => {
  const { [name]: _, ...rest } = said.value;
  said.value = value === undefined || value === '' ? rest : { ...rest, [name]: value };
  await ask();
};

/** Number of the last question: a slow answer to an old one is not shown. */
let asked = 0;

export const ask = async (): Promise<void> => {
  const body = question();
  if (body === undefined) {
    state.value = { kind: 'still' };
    return;
  }
  asked += 1;
  const mine = asked;
  state.value = { kind: 'busy' };
  // As a file, for its patience: a day of readings takes longer to judge than a screen waits for an act.
  const answer = await postFile<LogsView>(
    '/api/logs/judge',
    new Blob([JSON.stringify(body)], { type: 'application/json' }),
  );
  if (mine !== asked) return;
  if (answer.kind === 'ok') {
    view.value = answer.value;
    state.value = { kind: 'still' };
    return;
  }
  view.value = undefined;
  if (answer.kind === 'problems') {
    fail(
      answer.problems.map(({ field, found, allowed }) => `${field}: found ${found}; allowed is ${allowed}.`).join(' '),
    );
  } else fail('The station did not answer. A long log takes a while: ask again.');
};

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

const question = () =>
  joint.value === undefined || files.value.length === 0
    ? undefined
    : { joint: joint.value.value, files: files.value, said: said.value, events: events() };

const events = (): readonly { readonly name?: string; readonly text: string }[] => [
  ...(acts.value.length === 0 ? [] : [{ text: actsText(acts.value) }]),
  ...(eventsFile.value === undefined ? [] : [eventsFile.value]),
];

/** As an events file has them, so that acts of the page and of a file are read by the same rules. */
export const actsText = (rows: readonly ActRow[]): string =>
  [
    'time,kind,place,who,pass,pass kind',
    ...rows.map(({ time, kind, side, who, pass, passKind }) =>
      [time, kind, kind === 'pass start' ? side : '', who, pass, kind === 'pass start' ? passKind : '']
        .map(quoted)
        .join(','),
    ),
  ].join('\n');

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** What each column of the files is, as read or as said; empty where it is left out. */
export const columnRows = (
  read: readonly LogFileView[],
): readonly { readonly column: string; readonly probe: string }[] => {
  const rows = new Map<string, string>();
  for (const { guess } of read) {
    if (guess === undefined) continue;
    for (const column of guess.header) {
      if (column === '' || column === guess.timeColumn || column === guess.dateColumn) continue;
      const probe = guess.probes.find((each) => each.column === column)?.probe ?? '';
      rows.set(column, rows.get(column) || probe);
    }
  }
  return [...rows].map(([column, probe]) => ({ column, probe }));
};

/** The questions that are open, each once, and those that were answered and may be answered anew. */
export const questionsOf = (read: LogsView, answers: Readonly<Record<string, unknown>>) => {
  const all = [...read.problems, ...read.files.flatMap(({ problems }) => problems)];
  const open = new Map<string, LogLine>();
  for (const each of all)
    if (each.question !== undefined && !open.has(each.question.asks)) open.set(each.question.asks, each);
  return { open, answered: Object.keys(answers).filter((name) => !open.has(name)) };
};
