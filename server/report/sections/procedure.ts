/** The procedure that the joint goes by: which revision, what it states, how it was changed over, and where all of it stands against its test piece. */
import type { QualifiedPass } from '../../judgement/pass-status.ts';
import { bindingFault } from '../../ledger/procedures.ts';
import type { UnitSystem } from '../../measure/units.ts';
import { comparedWithTest } from '../../metallurgy/qualified-range.ts';
import type { Joint } from '../../weld/joint.ts';
import { besideFields, carriedRevision, type ProcedureRevision } from '../../weld/procedure-revision.ts';
import { handValueText } from '../../wording/instrument.ts';
import { changedLines, changeText, revisionText, statedLines } from '../../wording/procedure.ts';
import { comparedText, qualifiedCaution } from '../../wording/qualified.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const procedureSection = (facts: ReportFacts, times: Times): Section[] => {
  const revision = goneBy(facts.joint);
  if (revision === undefined) return [];
  const { units } = facts.assessment.requirement;
  return [
    {
      heading: 'Procedure',
      blocks: [
        { kind: 'pairs', rows: nameRows(facts.joint, revision) },
        ...changeOvers(facts, times),
        {
          kind: 'table',
          caption: 'What it states',
          columns: [
            { heading: 'Value', share: 5 },
            { heading: 'Stated', share: 6 },
          ],
          rows: statedLines(revision, units).map(({ name, text }) => [name, text]),
          empty: 'Nothing.',
        },
        paragraph('What is not listed is not stated, and was not judged.', 'small'),
        ...qualifiedBlocks(facts, units),
      ],
    },
  ];
};

/** Bound, the revision that it carries; by hand, what stands in the joint. */
function goneBy(joint: Joint): ProcedureRevision | undefined {
  const carried = carriedRevision(joint);
  if (carried !== undefined || joint.procedure === undefined) return carried;
  const stated = besideFields.filter((field) => joint[field] !== undefined);
  return {
    format: 'preheat procedure 1',
    procedure: joint.procedure,
    ...Object.fromEntries(stated.map((field) => [field, joint[field]])),
  };
}

function nameRows(joint: Joint, revision: ProcedureRevision): [string, string][] {
  const named: [string, string] = ['Procedure', revisionText(revision)];
  const { boundRevision } = joint;
  if (boundRevision === undefined)
    return [named, ['Binding', 'none: its values were entered by hand, and are not those of a recorded revision']];
  const fault = bindingFault(joint);
  return [
    named,
    ['SHA-256 of the revision', boundRevision.sha256],
    [
      'Binding',
      fault === undefined
        ? 'the values that this joint carries have that hash, worked out again for this report'
        : `DOES NOT HOLD: ${fault}`,
    ],
  ];
}

/** Each entry by which the joint came under other values of its procedure. */
function changeOvers({ timeline, assessment }: ReportFacts, times: Times): Block[] {
  const rows: string[][] = [];
  let before: ProcedureRevision | undefined;
  for (const { input } of timeline) {
    if (input.type === 'station' && input.event.kind === 'opened') before = goneBy(input.event.joint);
    if (input.type !== 'act' || input.act.kind !== 'revise') continue;
    const after = goneBy(input.act.joint);
    const changes = changesText(before, after, assessment.requirement.units);
    if (changes !== undefined)
      rows.push([
        times.when(input.at),
        input.role === undefined ? input.who : `${input.who}, ${input.role}`,
        [after === undefined ? 'no procedure' : revisionText(after), changes].filter((text) => text !== '').join('\n'),
        input.act.reason,
      ]);
    before = after;
  }
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Changed over',
      columns: [
        { heading: 'When', share: 3 },
        { heading: 'By', share: 4 },
        { heading: 'To, and what changed', share: 9 },
        { heading: 'Why', share: 5 },
      ],
      rows,
      empty: '',
    },
  ];
}

/** Undefined where it is the same revision with the same values. */
function changesText(
  before: ProcedureRevision | undefined,
  after: ProcedureRevision | undefined,
  units: UnitSystem,
): string | undefined {
  if (before === undefined || after === undefined) return before === after ? undefined : '';
  const lines = changedLines(before, after, units).map((line) => `${line.name}: ${changeText(line)}`);
  return lines.length === 0 && revisionText(before) === revisionText(after) ? undefined : lines.join('\n');
}

function qualifiedBlocks(facts: ReportFacts, units: UnitSystem): Block[] {
  const qualification = facts.joint.procedure?.qualification;
  if (qualification === undefined)
    return [paragraph('No qualification record is stated: nothing is compared with one.')];
  const compared = comparedWithTest(facts.joint).map((each) => comparedText(each, units));
  return [
    { kind: 'subheading', text: `Qualified range: record ${qualification.record}, ${qualification.standard}` },
    {
      kind: 'table',
      caption: 'Limits of the procedure against its test piece',
      columns: [
        { heading: 'Value', share: 4 },
        { heading: 'Stands', share: 10 },
        { heading: 'By', share: 5 },
      ],
      rows: compared.map(({ name, what, source }) => [name, what, source]),
      empty: 'Nothing of the test piece is stated that could be compared.',
    },
    passTable(facts, units),
    paragraph(qualifiedCaution, 'small'),
  ];
}

const passTable = ({ assessment }: ReportFacts, units: UnitSystem): Block => ({
  kind: 'table',
  caption: 'Measured when each pass began, against the test piece',
  columns: [
    { heading: 'Pass', share: 3 },
    { heading: 'Coldest required place', share: 5 },
    { heading: 'Preheat', share: 4 },
    { heading: 'Interpass', share: 5 },
    { heading: 'Stands', share: 4 },
  ],
  rows: assessment.passes.map(({ pass, coldestAtStart, interpass, qualified }) => [
    pass,
    coldestAtStart === undefined ? 'not measured' : `${handValueText(coldestAtStart, units)} ${coldestAtStart.probe}`,
    standingText(qualified?.preheat),
    interpass === undefined ? 'none' : `${handValueText(interpass, units)} ${interpass.probe}`,
    standingText(qualified?.interpass),
  ]),
  empty: 'No pass was entered.',
});

const standingText = (standing: QualifiedPass[keyof QualifiedPass]): string =>
  standing === undefined ? 'not compared' : standing === 'outside' ? 'OUTSIDE' : standing;
