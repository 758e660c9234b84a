/**
 * A page model to PDF: tagged, titled, with alternative texts, bookmarks and embedded fonts (the typesetter is
 * told to refuse anything less: PDF/UA-1). The same model gives the same bytes with the same version of the
 * typesetter. Heavy: to be called in a worker.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { type ReportFonts, reportFonts, wideFonts } from './fonts.ts';
import { hasOther, legible } from './legible.ts';
import type { PageModel } from './page-model.ts';
import { template } from './template.ts';
import { wrapped } from './wrap.ts';

export async function renderPdf(model: PageModel): Promise<Uint8Array> {
  const fonts = fontsFor(model);
  const covers = (code: number): boolean => fonts.some((each) => each.covers(code));
  const printable = wrapped(legible(model, covers));
  // The typesetter may read files of its workspace; there is nothing to read in an empty one.
  const workspace = await mkdtemp(join(tmpdir(), 'preheat-report-'));
  try {
    const compiler = NodeCompiler.create({
      workspace,
      fontArgs: [{ fontBlobs: fonts.flatMap(({ blobs }) => [...blobs]) }],
    });
    const bytes = compiler.pdf(
      { mainFileContent: template, inputs: { report: JSON.stringify(printable) } },
      { pdfStandard: 'ua-1', creationTimestamp: Math.floor(model.datedAt / 1000) },
    );
    // It keeps what it has set for the next time; a station that runs for months must not gather that.
    compiler.evictCache(0);
    return new Uint8Array(bytes);
  } catch (error) {
    throw new Error(
      `the report could not be set as PDF (${error instanceof Error ? error.message : String(error)}); the record itself is untouched. Export the readings as CSV meanwhile and report this with the message.`,
      { cause: error },
    );
  } finally {
    await rm(workspace, { recursive: true, force: true });
  }
}

const fontsFor = (model: PageModel): ReportFonts[] => {
  const usual = reportFonts();
  return hasOther(model, usual.covers) ? [usual, wideFonts()] : [usual];
};
