/** Reads a joint file from disk, or says on standard error everything that is wrong with it. */
import { readFile, stat } from 'node:fs/promises';
import { limits } from '../measure/limits.ts';
import type { Joint } from '../weld/joint.ts';
import type { Problem } from '../weld/problems.ts';
import { readJoint } from '../weld/read-joint.ts';
import type { Terminal } from './command.ts';

/** The joint, or undefined once the terminal has been told why not. */
export async function readJointFile(path: string, terminal: Terminal): Promise<Joint | undefined> {
  const text = await readText(path, 'joint', terminal);
  if (text === undefined) return undefined;
  const result = readJoint(text);
  if ('joint' in result) return result.joint;
  terminal.err(problemLines(path, 'joint', result.problems));
  terminal.err('The format in full: npm run -s ledger -- schema joint');
  return undefined;
}

export const problemLines = (path: string, what: string, problems: readonly Problem[]): string =>
  [
    `${path}: not a ${what} that can be used; ${problems.length === 1 ? 'one problem' : `${problems.length} problems`}.`,
    ...problems.map(({ field, found, allowed }) => `  ${field}\n    found:   ${found}\n    allowed: ${allowed}`),
  ].join('\n');

/** Undefined once the terminal has been told why not. */
export async function readText(path: string, what: string, terminal: Terminal): Promise<string | undefined> {
  try {
    const { size } = await stat(path);
    if (size > limits.bodyMaximum) {
      terminal.err(`${path}: ${size} bytes; a ${what} file has at most ${limits.bodyMaximum}. Is this the right file?`);
      return undefined;
    }
    return await readFile(path, 'utf8');
  } catch (error) {
    terminal.err(`${path}: cannot be read. ${advice(error as NodeJS.ErrnoException)}`);
    return undefined;
  }
}

function advice(error: NodeJS.ErrnoException): string {
  if (error.code === 'ENOENT') return 'There is no such file; check the path.';
  if (error.code === 'EACCES' || error.code === 'EPERM') return 'You may not read it; ask its owner for permission.';
  if (error.code === 'EISDIR') return 'It is a folder; name a file in it.';
  return error.message;
}
