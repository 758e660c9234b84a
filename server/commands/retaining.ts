/** What removing readings and putting them back have in common on the command line: who does it, and the package that is looked at first. */
import { readFileSync } from 'node:fs';
import { dutyProblems } from '../desk/duty.ts';
import { limits } from '../measure/limits.ts';
import { openPackage, type Packaged } from '../record/packaged.ts';
import type { RecordReader } from '../record/read.ts';
import { type Fitting, fitOf, type Way } from '../record/retaining.ts';
import type { DutyKind } from '../weld/duties.ts';
import { personSchema } from '../weld/person.ts';
import { problems } from '../weld/problems.ts';
import { type Signed, signedBy } from '../weld/signed.ts';

export const signedOptions = { who: { type: 'string' }, role: { type: 'string' }, reason: { type: 'string' } } as const;

export interface SignedGiven {
  readonly who?: string | undefined;
  readonly role?: string | undefined;
  readonly reason?: string | undefined;
}
export interface Answering {
  readonly by: Signed;
  readonly reason?: string;
}

/** Or what is wrong with what was given. */
export const answeringOf = (kind: DutyKind, { who, role, reason }: SignedGiven): Answering | string => {
  const named = { name: who ?? '', ...(role === undefined ? {} : { role }) };
  const person = personSchema.safeParse(named);
  const [wrong] = person.success ? dutyProblems(kind, person.data) : problems(person.error, named, personSchema);
  if (!person.success || wrong !== undefined)
    return `--who NAME --role ROLE say who does it: found ${wrong?.found}; allowed is ${wrong?.allowed}`;
  const why = reason?.trim() ?? '';
  if (why.length > limits.textMaximum) return `--reason wants at most ${limits.textMaximum} characters`;
  if (why === '' && kind === 'remove readings')
    return '--reason TEXT says why; it comes into the record and stands there for ever';
  return { by: signedBy(person.data, { proof: 'typed name' }), ...(why === '' ? {} : { reason: why }) };
};

export interface Looked {
  readonly held: Packaged;
  readonly fitting: Fitting;
}

/** Reads the whole package and compares it with the record. */
export const lookAt = (
  reader: RecordReader,
  path: string,
  way: Way,
  joint?: string,
): Looked | { readonly refused: string } => {
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(readFileSync(path));
  } catch (error) {
    return { refused: `${path} cannot be read: ${(error as Error).message}. Check the name.` };
  }
  const held = openPackage(bytes);
  if ('refused' in held)
    return { refused: `${path}: ${held.refused} Take another copy of it, or make a new one (command package).` };
  const fitting = fitOf(reader, held, way, joint);
  return 'refused' in fitting ? { refused: `${path}: ${fitting.refused}` } : { held, fitting };
};

export const sizeText = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
