/** What is asked of the record, kept while one goes to a joint and back; every change asks again, and only the newest answer counts. */
import { computed, signal } from '@preact/signals';
import type { Statistics } from '../../../server/past/statistics.ts';
import type { FoundView } from '../../../server/past/view.ts';
import type { Problem } from '../../../server/screen/contract.ts';
import { type Answer, getJson } from '../../feed/http.ts';

export const nothing = {
  words: '',
  from: '',
  to: '',
  state: '',
  verdict: '',
  finding: '',
  source: '',
  person: '',
  role: '',
  repairOf: '',
};
export type Question = typeof nothing;

export const question = signal<Question>(nothing);
export const period = signal<'month' | 'week'>('month');
export const problems = signal<readonly Problem[]>([]);
export const found = signal<FoundView | 'asking' | 'failed'>('asking');
export const counts = signal<Statistics | 'asking' | 'failed'>('asking');

export const isNarrowed = computed(() => Object.values(question.value).some((value) => value !== ''));

/** The question as an address has it. */
export const query = (more: Readonly<Record<string, string>> = {}): string => {
  const stated = Object.entries({ ...question.value, ...more }).filter(([, value]) => value !== '');
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return new URLSearchParams([...stated, ['zone', zone]]).toString();
};

const pageLength = 50;
let asked = 0;

export async function askFound(): Promise<void> {
  const answer = await newest(getJson<FoundView>(`/api/past?${query({ count: `${pageLength}` })}`));
  if (answer === undefined || isRefused(answer)) return;
  found.value = answer.kind === 'ok' ? answer.value : 'failed';
}

export async function askMore(): Promise<void> {
  const before = found.peek();
  if (typeof before === 'string') return;
  const offset = `${before.joints.length}`;
  const answer = await newest(getJson<FoundView>(`/api/past?${query({ count: `${pageLength}`, offset })}`));
  if (answer?.kind === 'ok') found.value = { ...answer.value, joints: [...before.joints, ...answer.value.joints] };
}

export async function askCounts(): Promise<void> {
  const answer = await newest(getJson<Statistics>(`/api/past/statistics?${query({ period: period.value })}`));
  if (answer === undefined || isRefused(answer)) return;
  counts.value = answer.kind === 'ok' ? answer.value : 'failed';
}

/** Undefined where another question was asked meanwhile. */
async function newest<T>(asking: Promise<Answer<T>>): Promise<Answer<T> | undefined> {
  asked += 1;
  const mine = asked;
  const answer = await asking;
  return mine === asked ? answer : undefined;
}

function isRefused(answer: Answer<unknown>): boolean {
  problems.value = answer.kind === 'problems' ? answer.problems : [];
  return answer.kind === 'problems';
}
