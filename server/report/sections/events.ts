/** Notes and events in the order of the chain: who entered what, and what the station itself wrote. */

import type { UnitSystem } from '../../measure/units.ts';
import { signedText } from '../../wording/signed.ts';
import { actWords, stationWords } from '../event-words.ts';
import type { ReportFacts, TimelineEntry } from '../facts.ts';
import type { Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const eventsSection = ({ timeline, assessment }: ReportFacts, times: Times): Section => ({
  heading: 'Notes and events',
  blocks: [
    {
      kind: 'table',
      caption: 'Entries other than readings',
      columns: [
        { heading: 'Entry', share: 2, align: 'right' },
        { heading: 'Entered', share: 4 },
        { heading: 'Who', share: 5 },
        { heading: 'What', share: 15 },
      ],
      rows: timeline.map((entry) => row(entry, times, assessment.requirement.units)),
      empty: 'No entry but readings.',
    },
  ],
});

const row = ({ seq, input }: TimelineEntry, times: Times, units: UnitSystem): string[] =>
  input.type === 'act'
    ? [`${seq}`, times.when(input.at), signedText(input), actWords(input.act, input.at, times, units)]
    : [`${seq}`, times.when(input.at), 'station', stationWords(input.event)];
