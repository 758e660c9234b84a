/** What can be done to a package by hand, each with what must be said of it: by our eyes, and by the script that knows FORMAT.md only. */
import { readEnvelope } from '../../server/ledger/envelope.ts';
import { bytesOf, type Files, file, splitLines } from '../../server/proof/layout.ts';
import type { Signer } from '../../server/record/signer.ts';
import { listedAnew, rechained, withLines } from './package.ts';

export interface Target {
  readonly whole: Files;
  /** Another record, of whatever joint. */
  readonly other: Files;
  readonly chain: string;
  /** Number of an entry that is no block and stands between others. */
  readonly at: number;
  readonly signer: Signer;
  readonly stranger: Signer;
}
export type Tampering = [what: string, files: Files, told: RegExp, independent: RegExp];

const body = { kind: 'note', text: 'no wind at all' };

export const tamperings = ({ whole, other, chain, at, signer, stranger }: Target): Tampering[] => {
  const flipped = (name: string, line: number, byte: number): Files =>
    withLines(
      whole,
      (lines) =>
        lines.map((each, index) => (index === line - 1 ? each.map((b, place) => (place === byte ? b ^ 1 : b)) : each)),
      name,
    );
  const entries = splitLines(whole[file.entries]!);
  const lineOf = (files: Files, seq: number): Uint8Array => splitLines(files[file.entries]!)[seq - 1]!;
  const [, secondBlock] = entries.flatMap((line, index) => (sealsScans(line) ? [index + 1] : []));
  const said = (what: string): RegExp => new RegExp(what);
  const without = (name: string): Files => Object.fromEntries(Object.entries(whole).filter(([each]) => each !== name));
  const document = Object.keys(whole).find((name) => name.startsWith('documents/'));
  return [
    [
      'a bit flipped in an entry',
      flipped(file.entries, at, 60),
      said(`entry ${at} of ${chain}: `),
      said(`entry ${at}`),
    ],
    [
      'a bit flipped in a reading',
      flipped(file.scans, 2, 60),
      said(`entry ${secondBlock} of ${chain}: the scans`),
      said(`readings of entry ${secondBlock}`),
    ],
    [
      'a bit flipped in a signature',
      flipped(file.signatures, at, 20),
      said(`entry ${at} of ${chain}: not signed`),
      said(`entry ${at}`),
    ],
    [
      'an entry deleted',
      withLines(whole, (lines) => lines.toSpliced(at - 1, 1)),
      said(`entry ${at} of ${chain}: not in its place`),
      said(`entry ${at}`),
    ],
    [
      'two entries swapped',
      withLines(whole, (lines) => [...lines.slice(0, at - 1), lines[at]!, lines[at - 1]!, ...lines.slice(at + 1)]),
      said(`entry ${at} of ${chain}: not in its place`),
      said(`entry ${at}`),
    ],
    [
      'an entry put in',
      withLines(whole, (lines) => lines.toSpliced(at - 1, 0, lines[at - 1]!)),
      said(`entry ${at} of ${chain}: put in|entry ${at + 1} of ${chain}: not in its place`),
      said(`entry ${at + 1}`),
    ],
    [
      'the end cut off',
      withLines(whole, (lines) => lines.slice(0, -2)),
      /head\.txt does not give the newest entry/,
      said(`cut off after entry ${entries.length - 2}`),
    ],
    [
      'rewritten without the key',
      listedAnew(rechained(whole, at, () => body)),
      said(`entry ${at} of ${chain}: not signed`),
      said(`entry ${at}`),
    ],
    [
      'rewritten with a key of his own',
      listedAnew(
        rechained(whole, at, () => body, stranger),
        stranger,
      ),
      said(`entry 1 of ${chain}: not signed`),
      /entry 1/,
    ],
    [
      'two records spliced',
      withLines(whole, (lines) => lines.map((line, index) => (index === at - 1 ? lineOf(other, at) : line))),
      said(`entry (${at}|${at + 1}) of ${chain}`),
      said(`entry (${at}|${at + 1})`),
    ],
    [
      'the report changed alone',
      { ...whole, [file.report]: bytesOf('%PDF another report') },
      /report\.pdf is altered/,
      /report\.pdf/,
    ],
    [
      'the report changed, and the list with it',
      listedAnew({ ...whole, [file.report]: bytesOf('%PDF another report') }),
      /SHA256SUMS is not signed/,
      /SHA256SUMS/,
    ],
    ...(document === undefined
      ? []
      : [
          [
            'a document changed, and the list with it',
            listedAnew({ ...whole, [document]: bytesOf('x') }),
            said(`${document.replaceAll('.', '\\.')} is not the document`),
            /SHA256SUMS/,
          ] satisfies Tampering,
        ]),
    [
      'a file added',
      { ...whole, 'rules/more.js': bytesOf('x') },
      /rules\/more\.js was added/,
      /rules\/more\.js was added/,
    ],
    ['a file taken out', without(file.readings), /readings\.csv is missing/, /readings\.csv/],
    [
      'the public key replaced',
      listedAnew(
        withLines(
          whole,
          (lines) => lines.map((line) => replaced(line, signer.publicKey, stranger.publicKey)),
          file.station,
        ),
      ),
      /entry \d+ of station: not signed/,
      /of station/,
    ],
  ];
};

const sealsScans = (line: Uint8Array): boolean => {
  const { class: kindOf, kind, body: said } = readEnvelope(line);
  return kindOf === 'block' && kind === 'block' && (said as { readonly count: number }).count > 0;
};

const replaced = (line: Uint8Array, from: string, to: string): Uint8Array =>
  bytesOf(new TextDecoder().decode(line).replace(from, to));
