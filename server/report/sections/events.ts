/** Notes and events in the order of the chain: who entered what, and what the station itself wrote. */

import type { Instant } from '../../measure/quantity.ts';
import type { UnitSystem } from '../../measure/units.ts';
import type { Signed } from '../../weld/signed.ts';
import { nameText } from '../../wording/signed.ts';
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
        { heading: 'Entered', share: 5 },
        { heading: 'Who', share: 6 },
        { heading: 'Known by', share: 2 },
        { heading: 'What', share: 16 },
      ],
      rows: timeline.map((entry) => row(entry, times, assessment.requirement.units)),
      empty: 'No entry but readings.',
    },
  ],
});

const row = ({ seq, input, kept }: TimelineEntry, times: Times, units: UnitSystem): string[] =>
  input.type === 'act'
    ? [
        `${seq}`,
        whenOf(input.at, kept, times),
        whoOf(input, kept),
        (kept?.by ?? input).proof ?? '',
        actWords(input.act, input.at, times, units),
      ]
    : [
        `${seq}`,
        whenOf(input.at, kept, times),
        kept === undefined ? 'station' : nameText(kept.by),
        kept?.by.proof ?? '',
        stationWords(input.event),
      ];

/** Of a job that is kept from its logs the time is that of the log; all of it was entered when it was kept. */
const whenOf = (at: Instant, kept: TimelineEntry['kept'], times: Times): string =>
  kept === undefined ? times.when(at) : `${times.when(at)} by the log`;

/** Whose entry it is, and by whom it was told where that is another. */
export const whoOf = (input: Signed, kept: TimelineEntry['kept']): string =>
  kept === undefined || kept.by.who === input.who ? nameText(input) : `${input.who}, as told by ${nameText(kept.by)}`;
