/** Under whose name a request acts: who signed on, where the station knows its people; else whoever is named in it. */
import type { Request } from 'express';
import { type DutyKind, duties, roleFor } from '../weld/duties.ts';
import type { Established, Person, Proof, Role } from '../weld/person.ts';

export interface Signer {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly proof: Proof;
}

/** 'as named': the station knows nobody, and takes the name that the request gives. */
export type Actor = Signer | 'as named' | 'nobody';
export type ActorOf = (request: Request) => Actor;

export const takenAsNamed: ActorOf = () => 'as named';

/** The body with who acts, which never comes from it where somebody signed on. */
export const bodyBy = (actor: Signer | 'as named', body: unknown, kind: DutyKind | undefined): unknown =>
  actor === 'as named' || typeof body !== 'object' || body === null ? body : { ...body, who: personFor(actor, kind) };

export const establishedBy = (actor: Signer | 'as named'): Established =>
  actor === 'as named' ? { proof: 'typed name' } : { person: actor.id, proof: actor.proof };

/** In the role that may make the entry; where none may, in the first, which the table then refuses. */
export function personFor({ name, roles }: Signer, kind: DutyKind | undefined): Person {
  const role = (kind === undefined ? undefined : roleFor(kind, roles)) ?? roles[0];
  return { name, ...(role === undefined ? {} : { role }) };
}

/** The same person in the role that is asked for, where it is one of theirs; a typed name keeps the role that it states. */
export const inRole = (who: Person, actor: Signer | 'as named', asked: Role | undefined): Person =>
  asked !== undefined && actor !== 'as named' && actor.roles.includes(asked) ? { ...who, role: asked } : who;

/** Of the act in the body, before the rest of it is read. */
export function kindIn(body: unknown): DutyKind | undefined {
  const kind = (body as { act?: { kind?: unknown } } | null | undefined)?.act?.kind;
  return typeof kind === 'string' && Object.hasOwn(duties, kind) ? (kind as DutyKind) : undefined;
}
