/** Of a job that was measured elsewhere: which files it was read from, how, and what was passed over. Nothing for any other. */
import type { ImportedFile } from '../../weld/imported.ts';
import { passedOverText, readTexts, saidText } from '../../wording/imported.ts';
import { signedText } from '../../wording/signed.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const importedSection = ({ timeline }: ReportFacts, times: Times): Section[] => {
  const entries = timeline.flatMap(({ input, kept }) =>
    input.type === 'station' && input.event.kind === 'imported file' ? [{ file: input.event, kept }] : [],
  );
  const [first] = entries;
  if (first === undefined) return [];
  const written =
    first.kept === undefined
      ? 'The files were judged without being kept in a record.'
      : `Kept on ${times.full(first.kept.at)} by ${signedText(first.kept.by)}. Times of readings and acts are those of the files; who did what there was told by them.`;
  return [
    {
      heading: 'Imported files',
      blocks: [
        paragraph(`IMPORTED: this station did not measure it. ${written}`, 'strong'),
        ...entries.flatMap(({ file }) => blocksOf(file, times)),
      ],
    },
  ];
};

const blocksOf = (file: ImportedFile, times: Times): Block[] => {
  const { name, bytes, sha256, rows, firstAt, lastAt, read, passedOver = [] } = file;
  const pairs: [string, string][] = [
    ['Size', `${bytes} bytes`],
    ...(rows === undefined ? [] : [['Rows of readings', `${rows}`] as [string, string]]),
    ...(firstAt === undefined || lastAt === undefined
      ? []
      : [['By its clock', times.span(firstAt, lastAt)] as [string, string]]),
    ...(read === undefined
      ? []
      : ([
          [
            'Read as',
            readTexts(read)
              .join('; ')
              .replace(/^read as /, ''),
          ],
          ['Corrected', saidText(read)],
        ] as [string, string][])),
  ];
  return [
    { kind: 'subheading', text: `${file.of === 'log' ? 'Log' : 'Events file'} ${name}` },
    { kind: 'pairs', rows: pairs },
    { kind: 'mono', label: 'SHA-256', text: sha256 },
    ...(file.of === 'log' ? passedBlocks(passedOver.map(passedOverText)) : []),
  ];
};

/** A report is for reading; the record holds all of them. */
const linesShown = 40;

const passedBlocks = (lines: readonly string[]): Block[] => {
  if (lines.length === 0) return [paragraph('No line was passed over.')];
  const more = lines.length - linesShown;
  return [
    paragraph(`Passed over, ${lines.length === 1 ? '1 line' : `${lines.length} lines`}:`),
    {
      kind: 'list',
      items: [...lines.slice(0, linesShown), ...(more > 0 ? [`and ${more} more, which stand in the record`] : [])],
    },
  ];
};
