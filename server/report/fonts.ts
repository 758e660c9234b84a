/**
 * The fonts that a report is set in, from an installed package and never from the system, so that a report
 * looks the same and has the same bytes on every machine. The typesetter also sees the system's fonts and may
 * prefer one of the same name; the family is therefore renamed in memory (its licence asks for no less than a
 * new name where the fonts are changed, and allows it), and no fallback is allowed.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { coverageOf } from './coverage.ts';
import { wideFamily } from './font-names.ts';
import { tableOf } from './font-table.ts';
import { openedWoff } from './woff.ts';

export interface ReportFonts {
  readonly blobs: readonly Buffer[];
  /** There is a glyph for this code point in the upright and the bold face. */
  covers(codePoint: number): boolean;
}

let loaded: ReportFonts | undefined;

export const reportFonts = (): ReportFonts => {
  loaded ??= load();
  return loaded;
};

const load = (): ReportFonts => {
  const require = createRequire(import.meta.url);
  const [regular, bold, mono] = ['DejaVuSansCondensed', 'DejaVuSansCondensed-Bold', 'DejaVuSansMono'].map((name) =>
    renamed(readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`))),
  ) as [Buffer, Buffer, Buffer];
  const [inRegular, inBold] = [coverageOf(regular), coverageOf(bold)];
  return { blobs: [regular, bold, mono], covers: (codePoint) => inRegular.has(codePoint) && inBold.has(codePoint) };
};

let wide: ReportFonts | undefined;

/** For nearly every other letter there is; many megabytes, so that it is opened only for a text that has one. */
export const wideFonts = (): ReportFonts => {
  if (wide === undefined) {
    const require = createRequire(import.meta.url);
    const file = require.resolve('@fontsource/unifontex/files/unifontex-latin-400-normal.woff');
    const font = renamed(openedWoff(readFileSync(file)), 'UnifontExMono', wideFamily);
    const covered = coverageOf(font);
    wide = { blobs: [font], covers: (codePoint) => covered.has(codePoint) };
  }
  return wide;
};

/** The same number of letters, so that nothing else in the file moves. */
const renamed = (font: Buffer, old = 'DejaVu', name = 'Ledger'): Buffer => {
  const { offset, length } = tableOf(font, 'name');
  const names = font.subarray(offset, offset + length);
  for (const encoding of ['latin1', 'utf16le'] as const) {
    const [from, to] = [old, name].map((word) => {
      const bytes = Buffer.from(word, encoding);
      return encoding === 'utf16le' ? bytes.swap16() : bytes;
    }) as [Buffer, Buffer];
    for (let at = names.indexOf(from); at !== -1; at = names.indexOf(from, at + 1)) to.copy(names, at);
  }
  return font;
};
