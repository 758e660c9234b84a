/** The project's own files, and what each source file imports: read once for all tidy tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join, posix } from 'node:path';
import ts from 'typescript';

export const root = join(import.meta.dirname, '..', '..');

/** What is installed, built or recorded here, and what git keeps for itself: none of it is the project. */
const notOurs = /^(node_modules|\.git|\.build|\.record)$|\.log$/;

/** All files of the project, relative to its root, with forward slashes. */
export const files: readonly string[] = filesUnder('').sort();

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .filter((entry) => !notOurs.test(entry.name))
    .flatMap((entry) => {
      const path = posix.join(folder, entry.name);
      return entry.isDirectory() ? filesUnder(path) : [path];
    });
}

export const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');

const codeKinds = new Set(['.ts', '.tsx', '.mjs']);
export const isCode = (file: string): boolean => codeKinds.has(extname(file));

/** Code of the product: what is tested, not the tests. */
export const sources: readonly string[] = files.filter(
  (file) => isCode(file) && /^(server|web|firmware-protocol)\//.test(file),
);

export const parsed = (file: string): ts.SourceFile =>
  ts.createSourceFile(file, textOf(file), ts.ScriptTarget.Latest, true);

export interface Import {
  readonly from: string;
  /** A file of the project, relative to its root; or the name of a package or of a part of Node. */
  readonly to: string;
  readonly isOwn: boolean;
  /** Gone once types are erased. */
  readonly isTypeOnly: boolean;
}

/** Every import of a file: static, type-only, re-export and dynamic. */
export function importsOf(file: string): Import[] {
  const text = textOf(file);
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName, end }) => {
    const isOwn = fileName.startsWith('.');
    const statement = text.slice(0, end).match(/.*\b(?:import|export)\b[^;]*$/s)?.[0] ?? '';
    const isTypeOnly = /\b(?:import|export)\s+type\b[^;]*$/.test(statement.slice(statement.lastIndexOf(';') + 1));
    return { from: file, to: isOwn ? posix.join(posix.dirname(file), fileName) : fileName, isOwn, isTypeOnly };
  });
}
