/**
 * The PDF itself. Its text is read by an independent reader (poppler, qpdf) where one is installed; what must
 * hold everywhere is checked on its bytes.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzlibSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { coverageOf } from '../../../server/report/coverage.ts';
import { reportFonts, wideFonts } from '../../../server/report/fonts.ts';
import { legible } from '../../../server/report/legible.ts';
import { modelText, type PageModel } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { renderPdf } from '../../../server/report/pdf.ts';
import { wrapped, zeroWidthSpace } from '../../../server/report/wrap.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint, probes } from '../../support/report-joint.ts';

// Setting a long report takes seconds on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const installed = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;
const poppler = installed('pdftotext') && installed('pdffonts') && installed('pdfinfo');
const qpdf = installed('qpdf');

const folder = mkdtempSync(join(tmpdir(), 'report-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const nasty = 'Łukasz Żółć Дмитрий Ωμέγα 田 \uE000 #read("/etc/passwd") *x* $y$ \\ `z` <w> \u202Eabc';
const facts = reportFacts({
  joint: fixtureJoint({ workshop: nasty, title: 'Çelik işi č ř ě ő ș, ΔT ≤ 5 K' }),
  extraActs: [[60, nasty, { kind: 'note', text: `${nasty}\nsecond line` }]],
});
const model = pages(facts);
let bytes: Uint8Array;
let file: string;
beforeAll(async () => {
  bytes = await renderPdf(model);
  file = join(folder, 'report.pdf');
  writeFileSync(file, bytes);
});
const told = (program: string, ...rest: string[]): string => {
  const { stdout, status, stderr } = spawnSync(program, rest, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  if (status !== 0) throw new Error(`${program}: ${stderr}`);
  return stdout;
};

describe('PDF', () => {
  it('has the same bytes for the same facts, and leaves nothing behind', async () => {
    const left = (): string[] => readdirSync(tmpdir()).filter((name) => name.startsWith('preheat-report-'));
    const before = left();
    expect(Buffer.from(await renderPdf(pages(facts))).equals(Buffer.from(bytes))).toBe(true);
    expect(left()).toEqual(before);
  });

  it('is tagged, titled, has a language, bookmarks and is dated by the record', () => {
    const text = structure(bytes);
    expect(text).toMatch(/\/MarkInfo\s*<<[^>]*\/Marked true/);
    expect(text).toMatch(/\/Lang\s*\(en\)/);
    expect(text).toContain('/StructTreeRoot');
    expect(text).toContain('/Outlines');
    expect(text).toContain('/DisplayDocTitle true');
    expect(text).toMatch(/\/Alt\s*[(<]/);
    const at = new Date(facts.lastAt).toISOString().replace(/\D/g, '').slice(0, 14);
    expect(text).toContain(`/CreationDate (D:${at}`);
    expect(text).toContain('pdfuaid');
  });

  it('says of itself what it is, whose, and of which record', (context) => {
    context.skip(!poppler, 'needs poppler-utils: pdftotext, pdffonts, pdfinfo');
    const said = told('pdfinfo', file);
    expect(said).toMatch(/^Title: +Preheat report: Çelik işi/m);
    expect(said).toMatch(/^Subject: +Preheat record of joint ring-seam-4/m);
    expect(said).toMatch(/^Author: +Łukasz Żółć .*, station Bay 2$/m);
    expect(said).toMatch(
      new RegExp(`^Keywords: +joint ring-seam-4, procedure WP-12 revision 3, head ${facts.head.hash}`, 'm'),
    );
    expect(said).toMatch(/^Tagged: +yes$/m);
    // Every section has its bookmark and stands in the contents with its page.
    const outline = structure(bytes);
    const contents = told('pdftotext', '-layout', '-f', '2', '-l', '2', file, '-').replace(/\s+/g, ' ');
    for (const { heading } of model.sections.slice(2)) {
      expect(outline, heading).toContain(`(${heading})`);
      expect(contents, heading).toMatch(new RegExp(`${heading} \\d+`));
    }
  });

  it('prints letters of many languages, the mark and the page number on every page, and markup as text', (context) => {
    context.skip(!poppler, 'needs poppler-utils: pdftotext, pdffonts, pdfinfo');
    const text = told('pdftotext', '-layout', file, '-');
    for (const words of [
      'Łukasz Żółć Дмитрий Ωμέγα 田 [U+E000] #read("/etc/passwd") *x* $y$ \\ `z`',
      '[U+202E]abc',
      'Çelik işi č ř ě ő ș, ΔT ≤ 5 K',
    ])
      expect(text.replace(/\s+/g, ' ')).toContain(words);
    expect(text).toContain('2 characters that this report has no letters for are printed as a code');
    const sheets = text.split('\f').slice(0, -1);
    sheets.forEach((sheet, index) => {
      expect(sheet).toContain('SIMULATED');
      expect(sheet).toContain(`Page ${index + 1} of ${sheets.length}`);
    });
    expect(sheets[0]).toContain('Complies');
    // Words within the chart and the drawing are text too, not outlines, and not lost for want of a font.
    for (const words of ['minimum preheat 150 °C', 'Local time, Europe/Warsaw', 'front 75 mm'])
      expect(text).toContain(words);
    // At the end, wherever the pages break.
    expect(sheets.slice(-2).join('')).toContain(facts.head.hash);
  });

  it('embeds every font, as a subset, and none of the system', (context) => {
    context.skip(!poppler, 'needs poppler-utils: pdftotext, pdffonts, pdfinfo');
    const lines = told('pdffonts', file).trim().split('\n').slice(2);
    expect(lines.length).toBeGreaterThanOrEqual(2);
    for (const line of lines) {
      expect(line).toMatch(/\+Ledger/);
      expect(line).toMatch(/yes yes yes/);
    }
  });

  it('puts a difference of verdicts on the first line of page one', async (context) => {
    context.skip(!poppler, 'needs poppler-utils: pdftotext, pdffonts, pdfinfo');
    const differing = pages({
      ...facts,
      recordedVerdict: { verdict: 'does-not-comply', at: facts.lastAt, rules: '0' },
    });
    const path = join(folder, 'differs.pdf');
    writeFileSync(path, await renderPdf(differing));
    const [head, first] = told('pdftotext', '-l', '1', path, '-')
      .split('\n')
      .filter((line) => line.trim() !== '' && !line.startsWith('Preheat report, joint'));
    expect(head).toBe('SIMULATED · VERDICTS DIFFER');
    expect(first).toMatch(/^Recorded verdict and verdict judged again differ/);
    expect(told('pdftotext', path, '-')).not.toMatch(/\bcomplies\b/i);
  });

  it('has text on every page, repeats the heads of tables over pages, and nothing leaves the page, however long', async (context) => {
    context.skip(!poppler, 'needs poppler-utils: pdftotext, pdffonts, pdfinfo');
    const name = 'x'.repeat(120);
    const long = reportFacts({
      joint: fixtureJoint({ id: 'a'.repeat(60), title: name, drawing: name, probes: probes(16, [name.slice(0, 100)]) }),
      passes: 40,
      hours: 6,
      periodSeconds: 120,
      extraActs: [
        [20, name, { kind: 'note', text: 'line\n'.repeat(799) }],
        [21, name, { kind: 'accept', subject: 'extended range', method: name, reason: 'y'.repeat(4000) }],
      ],
    });
    const path = join(folder, 'long.pdf');
    const longModel = pages(long);
    writeFileSync(path, await renderPdf(longModel));
    const sheets = told('pdftotext', '-layout', path, '-').split('\f').slice(0, -1);
    for (const sheet of sheets) expect(sheet.replace(/\s+/g, '').length).toBeGreaterThan(200);
    expect(headsMissing(longModel, sheets)).toEqual([]);
    expect(sheets.filter((sheet) => /Coldest at.*Interpass at/.test(sheet)).length).toBeGreaterThanOrEqual(2);
    const words = [
      ...told('pdftotext', '-bbox', path, '-').matchAll(
        /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)"/g,
      ),
    ];
    expect(words.length).toBeGreaterThan(1000);
    for (const [, xMin, yMin, xMax, yMax] of words) {
      expect(Number(xMin)).toBeGreaterThanOrEqual(40);
      expect(Number(xMax)).toBeLessThanOrEqual(595.3 - 38);
      expect(Number(yMin)).toBeGreaterThan(15);
      expect(Number(yMax)).toBeLessThan(841.9 - 15);
    }
  });

  it('is sound to a second reader', (context) => {
    context.skip(!qpdf, 'needs qpdf');
    expect(spawnSync('qpdf', ['--check', file], { encoding: 'utf8' }).stdout).toContain(
      'No syntax or stream encoding errors',
    );
  });

  it('says what to do if it cannot be set', async () => {
    await expect(
      renderPdf({
        ...model,
        sections: [{ heading: 'x', blocks: [{ kind: 'picture', svg: 'not svg', alternative: '', caption: '' }] }],
      }),
    ).rejects.toThrow(/the record itself is untouched/);
  });
});

describe('what the font lacks', () => {
  it('covers the letters of European trade and our own signs, and knows what it does not cover', () => {
    const { covers } = reportFonts();
    for (const sign of '°ΔΩµ≤≥−·…€ąćęłńóśźżčďěňřšťůžőűșțğışçåäöøæßñŁŻЖдмийюґїєΑωάλ')
      expect(covers(sign.codePointAt(0)!), sign).toBe(true);
    for (const sign of '田한🙂ไअ') {
      expect(covers(sign.codePointAt(0)!), sign).toBe(false);
      expect(wideFonts().covers(sign.codePointAt(0)!), sign).toBe(true);
    }
  });
  it('reads the same character map as the font itself lists', () => {
    const require = createRequire(import.meta.url);
    const covered = coverageOf(readFileSync(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf')));
    // The package's own list (unicover.txt): Basic Latin 95 of 95, Cyrillic 256 of 256 in Sans.
    const count = (from: number, to: number): number =>
      [...covered].filter((code) => code >= from && code <= to).length;
    expect(count(0x20, 0x7e)).toBe(95);
    expect(count(0x400, 0x4ff)).toBe(256);
  });
  it('is printed by its code, everywhere, and told once', () => {
    const printable = legible({ ...model, title: 'a田b田' }, (code) => code < 0x3000);
    expect(printable.title).toBe('a[U+7530]b[U+7530]');
    expect(modelText(printable)).not.toContain('田');
    expect(modelText(printable)).not.toContain('\u202E');
  });
  it('leaves a model alone that lacks nothing', () => {
    const plain = pages(reportFacts({ hours: 2, periodSeconds: 60 }));
    expect(legible(plain, () => true)).toEqual(plain);
  });
});

describe('long words', () => {
  it('are opened so that they can wrap, and lose nothing', () => {
    const long = { ...model, title: 'T'.repeat(120) };
    const opened = wrapped(long);
    expect(opened.title).toContain(zeroWidthSpace);
    expect(opened.title.replaceAll(zeroWidthSpace, '')).toBe(long.title);
    expect(wrapped({ ...model, title: 'a short title' }).title).toBe('a short title');
  });
});

/**
 * Tables whose rows stand on a page without their head. A row is known by its first cells of one line, where no other table
 * has the same; a head by its first word.
 */
const headsMissing = ({ sections }: PageModel, sheets: readonly string[]): string[] => {
  const begins = (row: string): RegExp =>
    new RegExp(`^\\s*${row.replace(/[^\p{L}\p{N} ]/gu, '.').replaceAll(' ', '\\s+')}\\s`, 'mu');
  const tables = sections.flatMap(({ blocks }) => blocks.filter((block) => block.kind === 'table'));
  const counts = new Map<string, number>();
  const rowsOf = (table: (typeof tables)[number]): string[] => [
    ...new Set(table.rows.map((row) => row.slice(0, 2).join(' ')).filter((text) => /^[^\n]{6,40}$/.test(text))),
  ];
  for (const table of tables) for (const row of rowsOf(table)) counts.set(row, (counts.get(row) ?? 0) + 1);
  return tables.flatMap((table) => {
    const [first, second] = table.columns.map(({ heading }) => heading.split(' ')[0]!);
    return rowsOf(table)
      .filter((row) => counts.get(row) === 1)
      .flatMap((row) =>
        sheets.flatMap((sheet, index) =>
          begins(row).test(sheet) && !(sheet.includes(first!) && sheet.includes(second!))
            ? [`${table.caption}: "${row}" on page ${index + 1} without "${first} ${second}"`]
            : [],
        ),
      );
  });
};

/** The PDF's objects as text: its compressed object streams opened. Enough to look for names. */
const structure = (pdf: Uint8Array): string => {
  const raw = Buffer.from(pdf).toString('latin1');
  const parts = [raw];
  for (const match of raw.matchAll(/stream\r?\n/g)) {
    const start = match.index + match[0].length;
    const end = raw.indexOf('endstream', start);
    const head = raw.slice(raw.lastIndexOf('obj', match.index), match.index);
    if (!/FlateDecode/.test(head) || !/ObjStm/.test(head)) continue;
    parts.push(Buffer.from(unzlibSync(pdf.subarray(start, end))).toString('latin1'));
  }
  return parts.join('\n');
};
