/** What taking a probe out of the judgement, trusting it again or letting a spare take over means for this joint, in plain sentences. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { ProbeStatus } from '../../../server/judgement/probe-status.ts';
import { listText } from '../../../server/wording/list.ts';
import { placeShort, useText } from '../../../server/wording/words.ts';

export type ProbeDeed = 'distrust probe' | 'trust probe again' | 'spare takes over';

/** Spares that are trusted now, or would be with a reading. */
export const sparesOf = ({ probes }: Assessment): readonly ProbeStatus[] =>
  probes.filter(({ use, distrusted }) => use === 'spare' && distrusted === undefined);

/** What makes sense with this probe now; the first is offered first. */
export function deedsFor(status: ProbeStatus, assessment: Assessment): readonly ProbeDeed[] {
  const hasSpare = status.use !== 'spare' && sparesOf(assessment).length > 0;
  return [
    status.distrusted === undefined ? 'distrust probe' : 'trust probe again',
    ...(hasSpare ? ['spare takes over' as const] : []),
  ];
}

export function meansFor(deed: ProbeDeed, status: ProbeStatus, assessment: Assessment, spare?: string): string[] {
  const { probe } = status;
  switch (deed) {
    case 'distrust probe':
      return withoutWords(status, assessment);
    case 'trust probe again':
      return [`What ${probe} reads counts again from now on; what was not judged meanwhile stays not judged.`];
    case 'spare takes over':
      return [
        `${spare ?? 'The spare'} is judged as ${useText(status.use).toLowerCase()} from now on, and ${probe} becomes a spare: what it reads is kept, and nothing is judged by it.`,
        'What was judged before stays as it was judged.',
      ];
  }
}

function withoutWords(status: ProbeStatus, assessment: Assessment): string[] {
  const { probe, use, place } = status;
  const alike = assessment.probes.filter(
    (each) => each.use === use && each.probe !== probe && each.distrusted === undefined,
  );
  const kept = `What ${probe} reads is kept, and shown as not trusted.`;
  const where = place === undefined ? 'its place' : placeShort(place);
  switch (use) {
    case 'zone':
    case 'opposite face':
      return [
        `Not judged then: the minimum preheat at ${where}. A pass that begins without it cannot be judged, unless the procedure can do without this place.`,
        ...(use === 'zone' && assessment.limits.evennessMaximum !== undefined
          ? ['Evenness is then judged without it, and not at all where only with it the probes are too far apart.']
          : []),
        ...throughWords(status, assessment),
        kept,
      ];
    case 'interpass':
      return [
        alike.length === 0
          ? 'Not judged then: the interpass temperature, since no other probe measures it. Take a contact reading just before each arc.'
          : `The interpass temperature is then judged by ${listText(alike.map((each) => each.probe))} alone.`,
        kept,
      ];
    case 'heater control':
    case 'ambient':
    case 'spare':
      return [`No limit is judged by ${probe} as ${useText(use).toLowerCase()}.`, kept];
  }
}

/** A section that no other trusted probe of the same face drives cannot be computed. */
function throughWords({ probe }: ProbeStatus, { sections, probes }: Assessment): string[] {
  const trusted = (ids: readonly string[]): boolean =>
    ids.some((id) => id !== probe && probes.some((each) => each.probe === id && each.distrusted === undefined));
  return sections.flatMap(({ part, frontProbes, backProbes }) => {
    if (frontProbes.includes(probe)) {
      return trusted(frontProbes)
        ? []
        : [`Not computed then: the heat through ${part}, since no other probe measures its heated face.`];
    }
    return backProbes.includes(probe) && !trusted(backProbes)
      ? [`The far face of ${part} is then computed from what was entered of it, no longer measured.`]
      : [];
  });
}
