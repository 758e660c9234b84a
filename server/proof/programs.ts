/** Which program and which rules wrote and judged a record, as its chain `station` names them. */
import type { Envelope } from '../ledger/envelope.ts';

export interface NamedProgram {
  readonly at: number;
  readonly program: string;
  /** SHA-256 of its rules as one script; undefined where it brought none. */
  readonly rules?: string;
}

/** What an entry says of the program that goes on writing; undefined for any other entry. */
export const programNamedBy = ({ class: kindOf, kind, at, body }: Envelope): NamedProgram | undefined => {
  if (kindOf !== 'block' || (kind !== 'program' && kind !== 'began')) return undefined;
  const { program, rules } = body as { readonly program?: unknown; readonly rules?: unknown };
  return { at, program: String(program), ...(typeof rules === 'string' ? { rules } : {}) };
};

/** The one that held when the joint was closed; the newest while it is open. */
export const heldWhenClosed = (
  programs: readonly NamedProgram[],
  closedAt: number | undefined,
): NamedProgram | undefined =>
  closedAt === undefined ? programs.at(-1) : programs.findLast(({ at }) => at <= closedAt);
