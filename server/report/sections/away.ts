/**
 * Page one of a report on a joint whose readings are in a package: it says so before anything else, and gives the verdict as one
 * that was recorded and not judged again.
 */
import { holdingPackageText, removalCautions, removedText } from '../../wording/removal.ts';
import { verdictHeadline } from '../../wording/words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { summary } from './first-page.ts';

/** Above the title, as a difference between verdicts would. */
export const awayBlocks = ({ readingsRemoved: removed, zone }: ReportFacts): Block[] =>
  removed === undefined
    ? []
    : [
        {
          kind: 'frame',
          heavy: true,
          headline: 'The readings are not in this record: nothing was judged again for this report',
          lines: [
            `${removed.scans} scans were ${removedText(removed, zone)}.`,
            `They are not missing: ${holdingPackageText(removed)}, with the report, charts and tables made of them then.`,
            'Verdict, findings and alarms below are those that were recorded while the readings were there.',
          ],
        },
      ];

export const awayPage = (facts: ReportFacts, times: Times): Section =>
  summary(facts, times, verdictBlocks(facts, times), [
    paragraph(removalCautions[0]!, 'strong'),
    paragraph(times.explained, 'small'),
  ]);

const verdictBlocks = ({ recordedVerdict }: ReportFacts, times: Times): Block[] => [
  { kind: 'subheading', text: 'Verdict, as recorded' },
  {
    kind: 'frame',
    heavy: true,
    headline: recordedVerdict === undefined ? 'No verdict was recorded' : verdictHeadline(recordedVerdict.verdict),
    lines: [
      ...(recordedVerdict === undefined
        ? []
        : [`Recorded ${times.full(recordedVerdict.at)} by rules ${recordedVerdict.rules}.`]),
      'Not judged again: that takes the readings. Judge the package, or put the readings back.',
    ],
  },
];

/** In the place of every page that draws or counts readings. */
export const awaySection = ({ readingsRemoved: removed }: ReportFacts): Section => ({
  heading: 'Course, soak, passes and probes',
  blocks: [
    paragraph(
      `Temperatures, charts, soak, what was kept in each pass, breaks and checks of probes follow from the readings, and those are not in this record.${removed === undefined ? '' : ` ${holdingPackageText(removed).replace('the', 'The')}.`}`,
    ),
  ],
});
