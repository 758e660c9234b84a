/** Findings about people in words. */
import type { Finding } from '../judgement/assessment.ts';
import type { FindingOfPeople } from '../judgement/people/finding-of-people.ts';
import { type DutyKind, duties } from '../weld/duties.ts';
import { entryText, rolesText } from './duty.ts';
import type { FindingWords } from './finding.ts';

export const peopleFindingText = (kind: FindingOfPeople, { who, act, pass }: Finding): FindingWords => {
  const entry = act !== undefined && Object.hasOwn(duties, act) ? (act as DutyKind) : undefined;
  const ofPass = pass === undefined ? '' : ` when pass ${pass} began`;
  switch (kind) {
    case 'welder not qualified':
      return {
        what: `${who ?? 'The welder'} had no qualification for the process entered here${ofPass}`,
        why: 'Many codes ask for a welder who is qualified for process, position and thickness. The station knows only what was entered.',
        first:
          'Look at the certificates, and enter the one that covers this pass; or let the coordinator say that none is needed.',
      };
    case 'qualification lapsed':
      return {
        what: `The qualification of ${who ?? 'the welder'} had lapsed or was not confirmed${ofPass}`,
        why: 'After its last day, or without the confirmation that its standard asks for, a qualification no longer covers a weld.',
        first:
          'Look at the certificate and its confirmations, and enter what is missing; or ask the coordinator what is to be done with the pass.',
      };
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
