/** What probes say of the register of instruments: names that are in it, of the right kind and type, each once. */
import type { Instrument, InstrumentKind } from './instrument.ts';
import type { Joint } from './joint.ts';
import type { CrossIssue } from './joint-cross-checks.ts';
import type { Probe } from './probe.ts';

/** What a probe says instead of a cable where its own wire goes to the board. */
export const noExtension = 'none';

export function instrumentChecks({
  probes,
  instruments = [],
}: Pick<Joint, 'probes' | 'instruments'>): readonly CrossIssue[] {
  const ids = instruments.map(({ id }) => id);
  return [
    ...ids.flatMap((id, index) =>
      ids.indexOf(id) < index
        ? [{ path: ['instruments', index, 'id'], message: 'an id that no other instrument has' }]
        : [],
    ),
    ...instruments.flatMap((each, index) => readTwice(instruments, each, index)),
    ...probes.flatMap((probe, index) => [
      ...namedRightly(instruments, probe, index, 'wire', ['wire lot', 'thermocouple']),
      ...(probe.extension === noExtension
        ? []
        : namedRightly(instruments, probe, index, 'extension', ['extension cable'])),
    ]),
  ];
}

function namedRightly(
  instruments: readonly Instrument[],
  probe: Probe,
  index: number,
  field: 'wire' | 'extension',
  kinds: readonly InstrumentKind[],
): CrossIssue[] {
  const id = probe[field];
  if (id === undefined) return [];
  const issue = (message: string): CrossIssue[] => [{ path: ['probes', index, field], message }];
  const fitting = instruments.filter(({ kind }) => kinds.includes(kind));
  const named = fitting.find((each) => each.id === id);
  if (named === undefined) {
    const known = fitting.map((each) => each.id).join(', ');
    return issue(
      `the id of a ${kinds.join(' or ')} of the register of instruments${known === '' ? '; there is none yet' : `: ${known}`}`,
    );
  }
  return named.thermocouple === probe.thermocouple
    ? []
    : issue(`a ${named.kind} of type ${probe.thermocouple}, as the probe; ${id} is of type ${named.thermocouple}`);
}

/** Two boards of one identity, or two modules on one channel, would leave open which calibration counts. */
function readTwice(instruments: readonly Instrument[], each: Instrument, index: number): CrossIssue[] {
  const { kind, board, channels = [] } = each;
  if (board === undefined) return [];
  const other = instruments
    .slice(0, index)
    .find(
      (before) =>
        before.kind === kind &&
        before.board === board &&
        (kind === 'board' || before.channels?.some((channel) => channels.includes(channel)) === true),
    );
  if (other === undefined) return [];
  const field = kind === 'board' ? 'board' : 'channels';
  return [{ path: ['instruments', index, field], message: `a place that is free; ${other.id} already reads it` }];
}
