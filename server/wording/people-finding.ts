/** Findings about people in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingOfPeople } from '../judgement/people/finding-of-people.ts';
import { type DutyKind, duties } from '../weld/duties.ts';
import { entryText, rolesText } from './duty.ts';
import type { FindingWords } from './finding.ts';

export const peopleFindingText = (kind: FindingOfPeople, { who, act }: Finding): FindingWords => {
  const entry = act !== undefined && Object.hasOwn(duties, act) ? (act as DutyKind) : undefined;
  switch (kind) {
    case 'entry outside role':
      return {
        what: `${who ?? 'Somebody'} made an entry without a role that may make it${entry === undefined ? '' : `: ${entryText(entry)}`}`,
        why:
          entry !== undefined && duties[entry].weight === 'decision'
            ? 'A decision counts only from a role that may make it, so this one changed nothing.'
            : 'What was stated is judged all the same, since leaving it out would hide what happened.',
        first: `Have it confirmed by a role that may make it${entry === undefined ? '' : `: ${rolesText(entry)}`}.`,
      };
  }
};
