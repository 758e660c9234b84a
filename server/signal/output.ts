/**
 * One output of one board: what it was told, whether it said that it did, and when it is to be told again. Knows no
 * time but the one handed in.
 */
import type { HostFrame, Reply } from '../../firmware-protocol/codec/frame.ts';
import { bounds } from './bounds.ts';

export type OutputKind = 'lamp' | 'horn' | 'permission' | 'heartbeat';
/** silent: several commands in a row had no reply. refused: the board has no such output. */
export type Outcome = 'not told' | 'waiting' | 'done' | 'refused' | 'silent';

export interface Output {
  readonly kind: OutputKind;
  /** Tells it unless it was told and needs no telling again. `put` answers false where nothing goes out. */
  tell(frame: HostFrame, now: number, put: (frame: HostFrame) => boolean): void;
  reply(reply: Reply): void;
  /** What it was told no longer counts: it started again, or was not heard for a while. */
  forget(): void;
  outcome(): Outcome;
}

export function createOutput(kind: OutputKind): Output {
  let told: { readonly state: string; readonly command: number; readonly at: number; answered: boolean } | undefined;
  let outcome: Outcome = 'not told';
  let unanswered = 0;

  const isDue = (state: string, now: number): boolean => {
    if (outcome === 'refused') return false;
    if (told === undefined || told.state !== state) return true;
    if (kind === 'heartbeat') return now - told.at >= bounds.heartbeatEvery;
    return now - told.at >= (told.answered ? bounds.again : bounds.reply);
  };

  return {
    kind,
    tell(frame, now, put) {
      const state = 'state' in frame ? frame.state : '';
      if (!isDue(state, now) || !put(frame)) return;
      if (told !== undefined && !told.answered) unanswered += 1;
      told = { state, command: frame.command, at: now, answered: false };
      if (unanswered >= bounds.silentAfter) outcome = 'silent';
      else if (outcome !== 'done' || kind !== 'heartbeat') outcome = 'waiting';
    },
    reply(reply) {
      if (told === undefined || told.command !== reply.command) return;
      told.answered = true;
      unanswered = 0;
      outcome = reply.outcome === 'done' ? 'done' : 'refused';
    },
    forget() {
      told = undefined;
      outcome = 'not told';
      unanswered = 0;
    },
    outcome: () => outcome,
  };
}
