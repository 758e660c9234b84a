/** What the readings of a joint are, after an input: simulated, imported, not verified, measured. */
import { againstDuty } from '../weld/duties.ts';
import type { Input, Source } from '../weld/entry.ts';

/** Only doubt can be lifted by a person's word; what is simulated stays simulated. */
export function sourceAfter(source: Source, input: Input): Source {
  if (input.type === 'station' && input.event.kind === 'source') return input.event.source;
  const isDeclared =
    input.type === 'act' &&
    input.act.kind === 'declare source' &&
    againstDuty('declare source', input.role) === undefined;
  if (isDeclared && source.kind === 'not verified')
    return { kind: 'measured', detail: `declared by ${input.who}: ${input.act.statement}` };
  return source;
}
