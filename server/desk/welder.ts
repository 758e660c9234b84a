/** What the station knows of the welder of a pass goes into its start, so that the record can be judged by itself. */
import type { Qualification } from '../weld/qualification.ts';

/** The body with the qualifications of the welder whom it names; never with those that somebody sent. */
export function withQualifications(
  body: unknown,
  known: ((welder: string) => readonly Qualification[] | undefined) | undefined,
): unknown {
  const act = (body as { act?: { kind?: unknown } } | null)?.act;
  if (act?.kind !== 'pass start') return body;
  const { qualifications: _sent, ...start } = act as Record<string, unknown>;
  const found = typeof start.welder === 'string' ? known?.(start.welder) : undefined;
  return { ...(body as object), act: found === undefined ? start : { ...start, qualifications: found } };
}
