/** What the readings of a joint are, after an input: simulated, imported, not verified, measured. */
import type { Input, Source } from '../weld/entry.ts';

/** Only doubt can be lifted by a person's word; what is simulated stays simulated. */
export function sourceAfter(source: Source, input: Input): Source {
  if (input.type === 'station' && input.event.kind === 'source') return input.event.source;
  if (input.type === 'act' && input.act.kind === 'declare source' && source.kind === 'not verified')
    return { kind: 'measured', detail: `declared by ${input.who}: ${input.act.statement}` };
  return source;
}
