/**
 * A workbook from a text that a person can read, so that an awkward one is made here and not kept as bytes:
 *
 *   book KEY             1904 or 1904-true: how it says that days count from 1904; prefixed: names with a prefix, as some write
 *   sheet NAME           begins a sheet
 *   hide B / hide row 4  what the sheet hides
 *   merge A1:C1
 *   ROW: CELL | CELL     a number; "text"; d: date and time, D: date, t: time, e: elapsed time, each the number that is kept;
 *                        !#N/A an error; =20.5 what a formula gave last; i:text kept in the cell itself; a word is text
 */
import { strToU8, zipSync } from 'fflate';

export function workbookOf(text: string): Uint8Array {
  const lines = text.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  const keys = lines.flatMap((line) => (line.startsWith('book ') ? [line.slice(5)] : []));
  const shared: string[] = [];
  const sheets: Sheet[] = [];
  for (const line of lines) {
    if (line.startsWith('sheet '))
      sheets.push({ name: line.slice(6), rows: [], columns: [], hiddenRows: [], merged: [] });
    const sheet = sheets.at(-1)!;
    if (line.startsWith('hide row ')) sheet.hiddenRows.push(Number(line.slice(9)));
    else if (line.startsWith('hide ')) sheet.columns.push(line.charCodeAt(5) - 64);
    if (line.startsWith('merge ')) sheet.merged.push(line.slice(6));
    const row = /^(\d+): ?(.*)$/.exec(line);
    if (row !== null) sheet.rows.push([Number(row[1]), row[2]!.split('|').map((each) => each.trim())]);
  }
  const files: Record<string, string> = {
    '[Content_Types].xml': '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${sheets
      .map(
        (_, at) => `<Relationship Id="rId${at + 1}" Type="${types}/worksheet" Target="worksheets/sheet${at + 1}.xml"/>`,
      )
      .join(
        '',
      )}<Relationship Id="s" Type="${types}/styles" Target="styles.xml"/><Relationship Id="t" Type="${types}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
    'xl/workbook.xml': `<workbook xmlns="${main}" xmlns:r="${types}"><workbookPr${
      keys.includes('1904') ? ' date1904="1"' : keys.includes('1904-true') ? ' date1904="true"' : ''
    }/><sheets>${sheets.map(({ name }, at) => `<sheet name="${escaped(name)}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`).join('')}</sheets></workbook>`,
    'xl/styles.xml': styles,
  };
  for (const [at, sheet] of sheets.entries()) {
    const xml = sheetXml(sheet, shared);
    files[`xl/worksheets/sheet${at + 1}.xml`] = keys.includes('prefixed')
      ? xml.replaceAll(/<(\/?)(\w)/g, '<$1x:$2').replace('xmlns=', 'xmlns:x=')
      : xml;
  }
  files['xl/sharedStrings.xml'] =
    `<sst xmlns="${main}">${shared.map((each) => `<si><t>${escaped(each)}</t></si>`).join('')}</sst>`;
  return zipSync(Object.fromEntries(Object.entries(files).map(([name, xml]) => [name, strToU8(xml)])));
}

interface Sheet {
  readonly name: string;
  readonly rows: [number, readonly string[]][];
  readonly columns: number[];
  readonly hiddenRows: number[];
  readonly merged: string[];
}

const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const types = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
/** 1 date and time, 2 date, 3 time, 4 elapsed time. */
const styles = `<styleSheet xmlns="${main}"><numFmts><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd\\ hh:mm:ss"/><numFmt numFmtId="165" formatCode="[h]:mm:ss"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="21" applyNumberFormat="1"/><xf numFmtId="165" applyNumberFormat="1"/></cellXfs></styleSheet>`;
const styleOf: Readonly<Record<string, number>> = { d: 1, D: 2, t: 3, e: 4 };

const sheetXml = ({ rows, columns, hiddenRows, merged }: Sheet, shared: string[]): string =>
  `<worksheet xmlns="${main}">${
    columns.length === 0
      ? ''
      : `<cols>${columns.map((at) => `<col min="${at}" max="${at}" hidden="1"/>`).join('')}</cols>`
  }<sheetData>${rows
    .map(([at, cells]) => {
      const made = cells
        .map((cell, column) => cellXml(cell, `${String.fromCharCode(65 + column)}${at}`, shared))
        .join('');
      return `<row r="${at}"${hiddenRows.includes(at) ? ' hidden="1"' : ''}>${made}</row>`;
    })
    .join('')}</sheetData>${
    merged.length === 0 ? '' : `<mergeCells>${merged.map((each) => `<mergeCell ref="${each}"/>`).join('')}</mergeCells>`
  }</worksheet>`;

function cellXml(cell: string, at: string, shared: string[]): string {
  if (cell === '') return '';
  const dated = /^([dDte]):(.+)$/.exec(cell);
  if (dated !== null) return `<c r="${at}" s="${styleOf[dated[1]!]}"><v>${dated[2]}</v></c>`;
  if (cell.startsWith('!')) return `<c r="${at}" t="e"><v>${cell.slice(1)}</v></c>`;
  if (cell.startsWith('=')) return `<c r="${at}"><f>B1*1</f><v>${cell.slice(1)}</v></c>`;
  if (cell.startsWith('i:')) return `<c r="${at}" t="inlineStr"><is><t>${escaped(cell.slice(2))}</t></is></c>`;
  if (/^-?\d+(\.\d+)?$/.test(cell)) return `<c r="${at}"><v>${cell}</v></c>`;
  shared.push(cell.replace(/^"(.*)"$/, '$1'));
  return `<c r="${at}" t="s"><v>${shared.length - 1}</v></c>`;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
