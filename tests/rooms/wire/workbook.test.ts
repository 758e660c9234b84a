/** Awkward workbooks, each as a text of its cells with its right reading beside it, and files that are refused with what to do. */
import { readdirSync, readFileSync } from 'node:fs';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readLog } from '../../../server/wire/log-file.ts';
import { openLog } from '../../../server/wire/workbook-source.ts';
import { logReading } from '../../support/log-reading.ts';
import { workbookOf } from '../../support/workbook.ts';

const folder = new URL('./workbooks/', import.meta.url);
const readings = readdirSync(folder).filter((name) => name.endsWith('.reading.txt'));
const text = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

describe('the awkward workbooks', () => {
  it('are at least eight', () => {
    expect(readings.length).toBeGreaterThanOrEqual(8);
  });

  it.each(readings)('%s', async (name) => {
    const { mapping, holds } = logReading(text(name));
    holds(readLog(await openLog(workbookOf(text(name.replace('.reading.', '.book.'))), mapping), mapping));
  });
});

describe('what is no workbook that can be read', () => {
  const refusal = async (bytes: Uint8Array): Promise<string> => {
    const opened = await openLog(bytes);
    return 'problem' in opened ? opened.problem.message : 'read';
  };
  const good = workbookOf(text('02-dates-from-1904.book.txt'));
  const without = (change: (files: Record<string, Uint8Array>) => void): Uint8Array => {
    const files = { ...unzipSync(good) };
    change(files);
    return zipSync(files);
  };

  it('is refused with what to do', async () => {
    expect(await refusal(new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1]))).toMatch(/\.xls\).*password.*save/);
    const ods = { mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8('<x/>') };
    expect(await refusal(zipSync(ods))).toMatch(/OpenDocument.*save the sheet/);
    expect(await refusal(zipSync({ 'xl/workbook.bin': strToU8('x') }))).toMatch(/\.xlsb/);
    expect(await refusal(zipSync({ 'log.csv': strToU8('a,b') }))).toMatch(/unpack it/);
    expect(await refusal(good.slice(0, good.length - 30))).toMatch(/damaged/);
    expect(await refusal(without((files) => delete files['xl/worksheets/sheet1.xml']))).toMatch(/cannot be read.*CSV/);
  });

  it('does not fill the memory, however small it is', async () => {
    expect(await refusal(claiming(good, 2_000_000_000))).toMatch(/unpacks to more than/);
    expect(await refusal(claiming(good, 10))).toMatch(/cannot be read|no sheet/);
    const far = strToU8(
      '<worksheet><sheetData><row r="1"><c r="XFD1048576"><v>1</v></c></row></sheetData></worksheet>',
    );
    expect(await refusal(without((files) => Object.assign(files, { 'xl/worksheets/sheet1.xml': far })))).toMatch(
      /reaches to row 1048576 and over 16384 columns/,
    );
    const beyond = strToU8(
      '<worksheet><sheetData><row r="99999999999"><c r="A1"><v>1</v></c></row></sheetData></worksheet>',
    );
    expect(await refusal(without((files) => Object.assign(files, { 'xl/worksheets/sheet1.xml': beyond })))).toMatch(
      /reaches to row 99999999999/,
    );
  });
});

/** The same archive with another size of its first sheet in its directory, which is all that is known before unpacking. */
function claiming(archive: Uint8Array, size: number): Uint8Array {
  const bytes = archive.slice();
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < bytes.length - 46; at++) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)));
    if (name === 'xl/worksheets/sheet1.xml') view.setUint32(at + 24, size, true);
  }
  return bytes;
}
