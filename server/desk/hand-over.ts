/** Both signatures of a hand-over: of who acts, and of who takes over. Where people sign on the second is proven too. */
import type { Problem } from '../weld/problems.ts';
import type { Signer } from './actor.ts';

/** The body with who takes over as the station knows it. Anything that is no hand-over is given back as it is. */
export function countersigned(body: unknown, actor: Signer | 'as named', other: Signer | undefined): unknown {
  const act = (body as { act?: { kind?: unknown } } | null)?.act;
  if (act?.kind !== 'hand-over') return body;
  const { toPerson: _person, toProof: _proof, ...typed } = act as Record<string, unknown>;
  if (actor === 'as named') return { ...(body as object), act: { ...typed, toProof: 'typed name' } };
  const known = other === undefined ? {} : { to: other.name, toPerson: other.id, toProof: other.proof };
  return { ...(body as object), act: { ...typed, ...known } };
}

export function handOverProblems(act: { kind: string; to?: string }, who: string, unsigned: boolean): Problem[] {
  if (act.kind !== 'hand-over') return [];
  if (unsigned) {
    const allowed = 'the PIN, badge or password of who takes over, at this screen, at most two minutes ago';
    return [{ field: 'act.to', found: 'one signature', allowed }];
  }
  return act.to?.toLowerCase() === who.toLowerCase()
    ? [{ field: 'act.to', found: act.to, allowed: 'somebody else: who takes over' }]
    : [];
}
