/** Writes the single papers of a joint file: --working and --card of the command `requirement`. */
import { stat, writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Instant } from '../measure/quantity.ts';
import { explain } from '../metallurgy/explanation.ts';
import { type PaperKind, papers } from '../report/papers/papers.ts';
import { renderPdf } from '../report/pdf.ts';
import type { Joint } from '../weld/joint.ts';
import type { Terminal } from './command.ts';

export const paperOptions = { working: { type: 'string' }, card: { type: 'string' } } as const;

/** False once the terminal has been told what could not be written. The papers are dated by the file, not by the clock. */
export async function writePapers(
  joint: Joint,
  path: string,
  wanted: { readonly [kind in PaperKind]?: string | undefined },
  terminal: Terminal,
): Promise<boolean> {
  for (const kind of ['working', 'card'] as const) {
    const out = wanted[kind];
    if (out === undefined) continue;
    const datedAt = Math.floor((await stat(path)).mtimeMs) as Instant;
    const standsIn = `Joint ${joint.id}, from the file ${basename(path)}; on no record yet`;
    try {
      await writeFile(
        out,
        await renderPdf(papers[kind]({ joint, explanation: explain(joint, []), standsIn, datedAt })),
      );
    } catch (error) {
      terminal.err(`${out}: cannot be written. ${advice(error as NodeJS.ErrnoException)}`);
      return false;
    }
    terminal.err(`written: ${out}`);
  }
  return true;
}

function advice(error: NodeJS.ErrnoException): string {
  if (error.code === 'ENOENT') return 'There is no such folder; check the path.';
  if (error.code === 'EACCES' || error.code === 'EPERM') return 'You may not write there; choose another folder.';
  if (error.code === 'EISDIR') return 'It is a folder; name a file in it.';
  return error.message;
}
