/** Everything the judge found, the gravest first, and every alarm with who took note of it. */
import type { Finding, Severity } from '../../judgement/assessment.ts';
import type { UnitSystem } from '../../measure/units.ts';
import { findingText } from '../../wording/finding.ts';
import { begun, listText, wholeListText } from '../../wording/list.ts';
import { signName } from '../../wording/sign.ts';
import { severityText } from '../../wording/words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { groupedBy } from '../papers/grouped-by.ts';
import { alarmBlocks } from './alarms.ts';

export const findingsSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Findings and alarms',
  blocks: [findingTable(facts, times), ...whyBlocks(facts), ...alarmBlocks(facts, times), ...withdrawnBlocks(facts)],
});

const order: readonly Severity[] = ['nonconformity', 'not judged', 'remark'];

const findingTable = ({ assessment, readingsRemoved }: ReportFacts, times: Times): Block => ({
  kind: 'table',
  caption: readingsRemoved === undefined ? 'Findings, as judged again' : 'Findings, as recorded',
  columns: [
    { heading: 'Weight', share: 3 },
    { heading: 'What was found', share: 12 },
    { heading: 'Held', share: 6 },
    { heading: 'Known', share: 3 },
  ],
  rows: groupedBy(
    assessment.findings.toSorted((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity) || a.from - b.from),
    apartFromProbe,
  ).map(([, ...alike]) => findingRow(together(alike), times, assessment.requirement.units)),
  empty: 'No findings.',
});

/** A board that falls silent is found at every probe of it: what is alike but for the probe, and has no number, is told once. */
const apartFromProbe = ({ key, probe, ...rest }: Finding): string =>
  probe === undefined || rest.value !== undefined ? key : JSON.stringify(rest);
const together = (alike: readonly Finding[]): Finding =>
  alike.length === 1 ? alike[0]! : { ...alike[0]!, probe: wholeListText(alike.map(({ probe }) => probe!)) };

const findingRow = (finding: Finding, times: Times, units: UnitSystem): string[] => {
  const words = findingText(finding, units);
  return [
    severityText(finding.severity),
    words.what,
    times.span(finding.from, finding.to),
    times.when(finding.knownAt),
  ];
};

const nameOf = ({ kind, sign }: Finding): string => (sign === undefined ? kind : `${kind} (${signName(sign)})`);

/** Once for each kind, not for each finding. */
const whyBlocks = ({ assessment }: ReportFacts): Block[] => {
  const reasons = new Map(
    assessment.findings.map((finding) => [nameOf(finding), findingText(finding, assessment.requirement.units).why]),
  );
  const kinds = new Map<string, string[]>();
  for (const [kind, why] of reasons) kinds.set(why, [...(kinds.get(why) ?? []), kind]);
  return kinds.size === 0
    ? []
    : [
        { kind: 'subheading', text: 'Why they matter' },
        { kind: 'list', items: [...kinds].map(([why, names]) => `${begun(listText(names))}: ${why}`) },
      ];
};

/** Said while the joint lived and taken back by later evidence: not hidden. */
const withdrawnBlocks = ({ recordedConclusions, assessment }: ReportFacts): Block[] => {
  const withdrawn = (recordedConclusions ?? []).flatMap(({ conclusion }) =>
    conclusion.kind === 'finding' && conclusion.change === 'withdrawn'
      ? [findingText(conclusion.finding, assessment.requirement.units).what]
      : [],
  );
  return withdrawn.length === 0
    ? []
    : [
        paragraph(
          `Said at the time and taken back when later readings told it better: ${withdrawn.join('; ')}.`,
          'small',
        ),
      ];
};
