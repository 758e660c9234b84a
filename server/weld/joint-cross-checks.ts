/** What one field of a joint says of another: unique ids and wires, probes on parts that exist, counts that fit. */
import { instrumentChecks } from './instrument-checks.ts';
import type { Joint } from './joint.ts';
import type { Probe } from './probe.ts';

export interface CrossIssue {
  readonly path: (string | number)[];
  /** What is allowed, in words. */
  readonly message: string;
}

export function crossChecks(
  joint: Pick<
    Joint,
    'parts' | 'probes' | 'procedure' | 'chartReadings' | 'instruments' | 'arcSignal' | 'id' | 'repairOf' | 'restraint'
  >,
): readonly CrossIssue[] {
  return [
    ...repeated(joint.parts.map((part) => part.id)).map((index) => ({
      path: ['parts', index, 'id'],
      message: 'an id that no other part has',
    })),
    ...repeated(joint.probes.map((probe) => probe.id)).map((index) => ({
      path: ['probes', index, 'id'],
      message: 'an id that no other probe has',
    })),
    ...repeated(joint.probes.map(wire)).map((index) => ({
      path: ['probes', index, 'channel'],
      message: `a channel that is free; ${wire(joint.probes[index]!)} already carries probe ${carrier(joint.probes, index)}`,
    })),
    ...joint.probes.flatMap((probe, index) => placeOnPart(joint, probe, index)),
    ...countOfZonePlaces(joint),
    ...chartReadings(joint),
    ...instrumentChecks(joint),
    ...arcSignalBoard(joint),
    ...repairChecks(joint),
  ];
}

function placeOnPart(joint: Pick<Joint, 'parts'>, probe: Probe, index: number): CrossIssue[] {
  if (probe.place === undefined) return [];
  const part = joint.parts.find((one) => one.id === probe.place?.part);
  if (part === undefined) {
    const ids = joint.parts.map((one) => one.id).join(', ');
    return [{ path: ['probes', index, 'place', 'part'], message: `the id of a part of this joint: ${ids}` }];
  }
  if (part.side === 'both' || part.side === probe.place.side) return [];
  return [
    {
      path: ['probes', index, 'place', 'side'],
      message: `${part.side}, because part ${part.id} forms side ${part.side} of the groove`,
    },
  ];
}

/** A board without a probe of this joint sends it nothing. */
function arcSignalBoard({ arcSignal, probes }: Pick<Joint, 'probes' | 'arcSignal'>): CrossIssue[] {
  const boards = [...new Set(probes.map(({ board }) => board))];
  if (arcSignal === undefined || boards.includes(arcSignal.board)) return [];
  const allowed =
    boards.length === 0 ? 'nothing: this joint has no probe yet' : `a board of its probes: ${boards.join(', ')}`;
  return [{ path: ['arcSignal', 'board'], message: allowed }];
}

function countOfZonePlaces(joint: Pick<Joint, 'probes' | 'procedure'>): CrossIssue[] {
  const required = joint.procedure?.zonePlacesRequired;
  const fitted = joint.probes.filter((probe) => probe.use === 'zone').length;
  if (required === undefined || fitted === 0 || required <= fitted) return [];
  return [
    {
      path: ['procedure', 'zonePlacesRequired'],
      message: `at most ${fitted}, the number of zone probes on this joint`,
    },
  ];
}

/** Two readings of one method for one part would leave open which counts. */
function chartReadings({ parts, chartReadings: readings = [] }: Pick<Joint, 'parts' | 'chartReadings'>): CrossIssue[] {
  const ids = parts.map((part) => part.id);
  const unknown = readings.flatMap(({ part }, index) =>
    part === undefined || ids.includes(part)
      ? []
      : [{ path: ['chartReadings', index, 'part'], message: `the id of a part of this joint: ${ids.join(', ')}` }],
  );
  const twice = repeated(readings.map(({ method, part }) => JSON.stringify([method, part]))).map((index) => ({
    path: ['chartReadings', index, 'method'],
    message: 'one reading of a method for a part; an earlier entry already gives one',
  }));
  return [...unknown, ...twice];
}

const wire = (probe: Probe): string => `${probe.board} channel ${probe.channel}`;
const carrier = (probes: readonly Probe[], index: number): string =>
  probes.find((probe) => wire(probe) === wire(probes[index]!))!.id;
/** Positions of values that stood earlier in the list. */
const repeated = (values: readonly string[]): number[] =>
  values.flatMap((value, index) => (values.indexOf(value) < index ? [index] : []));

/** A repair is held by the part around it; how much is stated, never taken over from the joint that it mends. */
function repairChecks({ id, repairOf, restraint }: Pick<Joint, 'id' | 'repairOf' | 'restraint'>): CrossIssue[] {
  if (repairOf === undefined) return [];
  return [
    ...(repairOf.joint === id ? [{ path: ['repairOf', 'joint'], message: 'another joint than this one' }] : []),
    ...(restraint === undefined
      ? [{ path: ['restraint'], message: 'low, medium or high: a repair needs its own, and high is the usual one' }]
      : []),
  ];
}
