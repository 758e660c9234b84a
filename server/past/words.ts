/** What is told of past joints, in words: the same for page, terminal and CSV. */
import type { Verdict } from '../judgement/assessment.ts';
import { begun } from '../wording/list.ts';
import { verdictHeadline } from '../wording/words.ts';
import type { WordField } from './card-words.ts';
import { fewestForRate } from './share.ts';

/** Of an open joint nothing is settled yet. */
export const standText = ({ open, verdict }: { readonly open: boolean; readonly verdict: Verdict }): string =>
  open ? `Open; so far ${verdictHeadline(verdict).toLowerCase()}` : verdictHeadline(verdict);

export const findingName = (kind: string): string => begun(kind);

export const fieldNames: Readonly<Record<WordField, string>> = {
  joint: 'Joint, drawing, workshop',
  part: 'Part, steel',
  heat: 'Heat, certificate',
  procedure: 'Procedure, revision',
  person: 'Person',
  other: 'Consumable, instrument',
};

/** How each figure is made, and what is left out of it. */
export const howCounted = {
  verdicts:
    'Closed joints by the verdict that was recorded when they were closed. A decision on a deviation changes no verdict.',
  byProcedure: 'Closed joints by procedure and revision, as last revised.',
  bySteel: 'Closed joints by grade; a joint of two grades counts under each.',
  byHeat: 'Closed joints by heat number; a joint of two heats counts under each.',
  byPeriod: 'Closed joints by the day on which they were closed.',
  findings:
    'Findings that stood at last, without those that were withdrawn; open joints included. In how many joints, and how often in all.',
  heatToArc:
    'From the first "heat on" to the first arc, as entered. Left out: joints without one of the two, or with the arc first.',
  holdLost:
    'Joints that fell back before their first arc, from evening out to heating or from ready to either, by the phases as they were recorded; of all that were heated.',
  interpass:
    'Passes that began above the maximum interpass temperature. Left out: the first pass of each joint, passes whose procedure states no maximum, and passes that were not judged.',
  probes:
    'Joints with a fault or a suspicion of a probe on that channel or that wire, of the joints in which it was used. What reads wrongly without a sign is not in it.',
  breaks:
    'Joints with a break that somebody declared, of those with a pass. Breaks that nobody declared follow from the readings and are not counted here.',
  welders: `Passes with a limit not kept when they began or while they ran, in the order of names. It says nothing of a person: which joints somebody is given, who heats them and chance all come in. Below ${fewestForRate} passes no rate is given.`,
  rates: `A rate is given from ${fewestForRate} on; in brackets the range that chance alone could make of it (Wilson, 95 %).`,
} as const;
