/** `judge --keep`: what was judged becomes the closed record of a joint, marked as imported. */
import { dutyProblems } from '../desk/duty.ts';
import { type WholeJob, wholeItems } from '../errands/keep-logs.ts';
import { CanonicalFailure } from '../ledger/canonical.ts';
import { isJointChain } from '../ledger/item.ts';
import { instant } from '../measure/quantity.ts';
import type { Program } from '../program.ts';
import { RecordFailure, RecordRefusal } from '../record/failure.ts';
import { signerBeside } from '../record/key-file.ts';
import { openRecord, type RecordStore } from '../record/store.ts';
import { personSchema } from '../weld/person.ts';
import { problems } from '../weld/problems.ts';
import { type Signed, signedBy } from '../weld/signed.ts';

export const keepOptions = {
  keep: { type: 'string' },
  begin: { type: 'boolean' },
  'keep-as': { type: 'string' },
  who: { type: 'string' },
  role: { type: 'string' },
} as const;

export const keepHelp = `  --keep RECORD           keep what is judged in the record in this folder: a joint of its own, closed at its last
                          reading, marked as imported. No station may be writing there; its page does the same
  --keep-as NAME          under which name; without it that of the joint file
  --begin                 begin a new record in that folder
  --who NAME --role ROLE  who keeps it: inspector or coordinator`;

export interface Keeping {
  readonly folder: string;
  readonly begin: boolean;
  readonly as: string | undefined;
  readonly keeper: Signed;
}

interface Given {
  readonly keep?: string | undefined;
  readonly begin?: boolean | undefined;
  readonly 'keep-as'?: string | undefined;
  readonly who?: string | undefined;
  readonly role?: string | undefined;
}

/** Undefined where nothing is to be kept, or what is wrong with what was given. */
export const keepingOf = ({ keep: folder, begin, 'keep-as': as, who, role }: Given): Keeping | undefined | string => {
  if (folder === undefined) {
    const stray = [begin && 'begin', as && 'keep-as', who && 'who', role && 'role'].find((each) => each);
    return stray === undefined ? undefined : `--${stray} goes with --keep`;
  }
  const named = { name: who ?? '', ...(role === undefined ? {} : { role }) };
  const person = personSchema.safeParse(named);
  const found = person.success ? dutyProblems('import', person.data) : problems(person.error, named, personSchema);
  const [wrong] = found;
  if (!person.success || wrong !== undefined) {
    return `--keep wants --who NAME, and --role where it is stated: found ${wrong?.found}; allowed is ${wrong?.allowed}`;
  }
  return { folder, begin: begin === true, as, keeper: signedBy(person.data, { proof: 'typed name' }) };
};

/** Opens the record for writing, and closes it in any case. Answers with what went wrong, in words. */
export const withRecord = (
  { folder, begin }: Keeping,
  program: Program,
  work: (record: RecordStore) => string | undefined,
): string | undefined => {
  let record: RecordStore | undefined;
  try {
    record = openRecord({
      folder,
      begin,
      program: program.rules,
      ...(program.script === undefined ? {} : { rules: program.script }),
      now: () => instant(Date.now()),
      signer: signerBeside(folder),
    });
    return work(record);
  } catch (cause) {
    if (cause instanceof RecordRefusal || cause instanceof RecordFailure) return cause.message;
    if (cause instanceof CanonicalFailure) return `it cannot be recorded: ${cause.message}`;
    throw cause;
  } finally {
    record?.close();
  }
};

export const keepIn = (record: RecordStore, job: WholeJob, keeper: Signed): string | undefined => {
  const { chain } = job;
  if (!isJointChain(chain) || record.chains().some((each) => each.chain === chain))
    return `the record has a joint called "${chain}"; give another name with --keep-as`;
  record.keepWhole(chain, wholeItems(job, instant(Date.now()), keeper));
  return undefined;
};
