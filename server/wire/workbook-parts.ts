/**
 * A workbook (.xlsx, ISO/IEC 29500) unpacked within bounds, or the reason why it is none and what to do. What is said of its
 * size is counted before anything is unpacked, and what its cells span before any row is made: a small file can claim a lot.
 */
import { strFromU8, strToU8, type Unzipped, unzipSync, zipSync } from 'fflate';
import { limits } from '../measure/limits.ts';

export interface WorkbookParts {
  /** For the reader of workbooks: the same parts, in a form in which it reads all of them. */
  readonly bytes: Uint8Array;
  /** Days count from 1904-01-01 and not from 1899-12-30. */
  readonly from1904: boolean;
  /** XML of a sheet by its name. */
  readonly sheets: ReadonlyMap<string, string>;
}

export const isZip = (bytes: Uint8Array): boolean => [0x50, 0x4b, 3, 4].every((byte, index) => bytes[index] === byte);

export const workbookParts = (bytes: Uint8Array): WorkbookParts | string => {
  if (bytes.length > limits.workbookMaximum) {
    return `the workbook has ${bytes.length} bytes; at most ${limits.workbookMaximum} are read. Save the sheet as CSV`;
  }
  const files = unpacked(bytes);
  if (typeof files === 'string') return files;
  const workbook = files[workbookFile];
  if (workbook === undefined) return noWorkbook(files);
  const text = strFromU8(workbook);
  const date1904 = /\bdate1904\s*=\s*["'](?:1|true)["']/.exec(text) !== null;
  const sheets = new Map<string, string>();
  for (const [name, path] of pathsOf(text, strFromU8(files[relationsFile] ?? new Uint8Array(0)))) {
    const sheet = files[path];
    if (sheet === undefined) continue;
    const xml = strFromU8(sheet);
    const size = sizeOf(xml);
    if (size.rows > rowsMaximum || size.rows * size.columns > limits.workbookCellsMaximum) {
      return `sheet "${name}" reaches to row ${size.rows} and over ${size.columns} columns, more than is read. Delete what stands far from the readings, or save the sheet as CSV`;
    }
    sheets.set(name, xml);
    // A cell with an error shows its word, and that is what is kept of it.
    files[path] = strToU8(xml.replaceAll(/(<(?:\w+:)?c\b[^>]*?\st=)(["'])e\2/g, '$1$2str$2'));
  }
  // The reader knows one of the two ways in which the standard lets this be written.
  files[workbookFile] = strToU8(text.replace(/\bdate1904\s*=\s*(["'])true\1/, 'date1904="1"'));
  return { bytes: zipSync(files, { level: 0 }), from1904: date1904, sheets };
};

const workbookFile = 'xl/workbook.xml';
const relationsFile = 'xl/_rels/workbook.xml.rels';
/** Of any sheet, by the standard's own programs. */
const rowsMaximum = 1_048_576;

const unpacked = (bytes: Uint8Array): Unzipped | string => {
  let total = 0;
  let names = 0;
  try {
    return unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        total += originalSize;
        names += 1;
        if (total > limits.workbookUnpackedMaximum || names > limits.packageFilesMaximum) throw new TooLarge();
        return /\.(xml|rels)$|^mimetype$|workbook\.bin$/.test(name);
      },
    });
  } catch (cause) {
    return cause instanceof TooLarge
      ? `the workbook unpacks to more than ${limits.workbookUnpackedMaximum} bytes, and no more are read. Save the sheet as CSV, or cut it into parts`
      : 'the file begins like a workbook and is damaged; open it and save the sheet as CSV';
  }
};

class TooLarge extends Error {}

const noWorkbook = (files: Unzipped): string => {
  const kind = strFromU8(files.mimetype ?? new Uint8Array(0));
  if (kind.startsWith('application/vnd.oasis.opendocument')) {
    return 'this is an OpenDocument file (.ods); open it and save the sheet as .xlsx or CSV';
  }
  return files['xl/workbook.bin'] === undefined
    ? 'this is an archive and no workbook; unpack it and choose the log in it'
    : 'this is a workbook in binary form (.xlsb); open it and save it as .xlsx or CSV';
};

/** Which file of the archive holds a sheet: the workbook names sheets, its relations name files. */
const pathsOf = (workbook: string, relations: string): readonly (readonly [string, string])[] => {
  const targets = new Map(
    tags(relations, 'Relationship').map((tag) => [attribute(tag, 'Id'), attribute(tag, 'Target')]),
  );
  return tags(workbook, 'sheet').flatMap((tag) => {
    const target = targets.get(attribute(tag, '(?:\\w+:)id'));
    const name = attribute(tag, 'name');
    if (target === undefined || name === undefined) return [];
    return [[name, target.startsWith('/') ? target.slice(1) : `xl/${target}`] as const];
  });
};

/** Columns and rows that a sheet hides, as its program names them. */
export const hiddenIn = (xml: string): { readonly columns: readonly string[]; readonly rows: number } => ({
  columns: tags(xml.slice(0, Math.max(0, xml.indexOf('sheetData'))), 'col')
    .filter(isHidden)
    .map((tag) => {
      const [from, to] = [attribute(tag, 'min'), attribute(tag, 'max')].map((each) => columnName(Number(each)));
      return from === to ? from! : `${from} to ${to}`;
    }),
  rows: tags(xml, 'row').filter(isHidden).length,
});

const isHidden = (tag: string): boolean => /\shidden\s*=\s*["'](?:1|true)["']/.test(tag);

const columnName = (index: number): string =>
  index < 1 ? '' : `${columnName(Math.floor((index - 1) / 26))}${String.fromCharCode(65 + ((index - 1) % 26))}`;

/** The farthest row and column that any cell or row claims. */
const sizeOf = (xml: string): { readonly rows: number; readonly columns: number } => {
  let rows = 0;
  let columns = 0;
  for (const [, letters = '', row] of xml.matchAll(/<(?:\w+:)?(?:c|row)\b[^>]*?\sr\s*=\s*["']([A-Z]*)(\d+)["']/g)) {
    rows = Math.max(rows, Number(row));
    let column = 0;
    for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
    columns = Math.max(columns, column);
  }
  return { rows, columns };
};

const tags = (xml: string, name: string): readonly string[] =>
  xml.match(new RegExp(`<(?:\\w+:)?${name}\\b[^>]*>`, 'g')) ?? [];

const attribute = (tag: string, name: string): string | undefined => {
  const found = new RegExp(`\\s${name}\\s*=\\s*(["'])(.*?)\\1`).exec(tag)?.[2];
  return found?.replaceAll(/&(amp|lt|gt|quot|apos);/g, (_, entity: string) => entities[entity]!);
};
const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
