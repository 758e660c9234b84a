/**
 * Calls that somebody asked for on this device: kept across a reload, told once by page, sound and notification, and
 * taken back by one touch. The station is asked again every few seconds while any waits, woken by its own word, which
 * comes in the background too.
 */
import { effect, signal } from '@preact/signals';
import type { JointState } from '../../server/screen/contract.ts';
import { type CallKind, calledText, callKinds } from '../../server/wording/call.ts';
import { getJson } from '../feed/http.ts';
import { keep, kept } from './kept.ts';
import { hear, notify } from './sound.ts';
import { monotonic, station } from './station.ts';

export interface Call {
  readonly joint: string;
  readonly title: string;
  readonly kind: CallKind;
  /** What was told, and when by the station's time; absent while it waits. */
  readonly called?: { readonly text: string; readonly at: number };
}

const key = 'preheat.calls';
const askEvery = 5_000;

const isCall = (value: unknown): value is Call => {
  const { joint, title, kind } = value as Call;
  return typeof joint === 'string' && typeof title === 'string' && callKinds.includes(kind);
};
const isCalls = (value: unknown): value is readonly Call[] =>
  Array.isArray(value) && value.every((each) => typeof each === 'object' && each !== null && isCall(each));

export const calls = signal<readonly Call[]>(kept(key, isCalls) ?? []);

const set = (next: readonly Call[]): void => {
  calls.value = next;
  keep(key, next.length === 0 ? undefined : next);
};

const isSame = (a: Pick<Call, 'joint' | 'kind'>, b: Pick<Call, 'joint' | 'kind'>): boolean =>
  a.joint === b.joint && a.kind === b.kind;

export const waits = (joint: string, kind: CallKind): boolean =>
  calls.value.some((each) => isSame(each, { joint, kind }) && each.called === undefined);

/** Asks for it, or takes it back. */
export const toggleCall = (call: Omit<Call, 'called'>): void => {
  const others = calls.peek().filter((each) => !isSame(each, call));
  set(waits(call.joint, call.kind) ? others : [...others, call]);
};

export const drop = (call: Call): void => set(calls.peek().filter((each) => !isSame(each, call)));

/** Tells those of the joint that are due; each once. */
export const takeState = (joint: string, { assessment, outlook }: JointState): void => {
  const due = calls.peek().flatMap((call) => {
    const text =
      call.joint === joint && call.called === undefined ? calledText(call.kind, assessment, outlook) : undefined;
    return text === undefined ? [] : [{ ...call, called: { text, at: assessment.at } }];
  });
  if (due.length === 0) return;
  set(calls.peek().map((each) => due.find((call) => isSame(call, each)) ?? each));
  hear('call');
  for (const { title, called, kind } of due) notify(title, called.text, `${joint} ${kind}`);
};

export const startCalls = (): void => {
  let askedAt = Number.NEGATIVE_INFINITY;
  effect(() => {
    const now = station.value === undefined ? undefined : monotonic.peek();
    const joints = new Set(calls.value.filter(({ called }) => called === undefined).map(({ joint }) => joint));
    if (now === undefined || joints.size === 0 || now - askedAt < askEvery) return;
    askedAt = now;
    for (const joint of joints) void ask(joint);
  });
};

async function ask(joint: string): Promise<void> {
  const answer = await getJson<JointState>(`/api/joints/${encodeURIComponent(joint)}`);
  if (answer.kind === 'ok') takeState(joint, answer.value);
}
