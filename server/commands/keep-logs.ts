/** `judge --keep`: what was judged becomes the closed record of a joint, marked as imported. */
import { dutyProblems } from '../desk/duty.ts';
import { type WholeJob, wholeItems } from '../errands/keep-logs.ts';
import type { Assessment } from '../judgement/assessment.ts';
import { needsAnswer } from '../judgement/people/deviations.ts';
import { CanonicalFailure } from '../ledger/canonical.ts';
import { isJointChain } from '../ledger/item.ts';
import { instant } from '../measure/quantity.ts';
import type { Program } from '../program.ts';
import { RecordFailure, RecordRefusal } from '../record/failure.ts';
import { signerBeside } from '../record/key-file.ts';
import { openRecord, type RecordStore } from '../record/store.ts';
import type { DispositionAct } from '../weld/entry.ts';
import { personSchema } from '../weld/person.ts';
import { problems } from '../weld/problems.ts';
import { type Signed, signedBy } from '../weld/signed.ts';

export const keepOptions = {
  keep: { type: 'string' },
  begin: { type: 'boolean' },
  'keep-as': { type: 'string' },
  who: { type: 'string' },
  role: { type: 'string' },
  decide: { type: 'string', multiple: true },
} as const;

export const keepHelp = `  --keep RECORD           keep what is judged in the record in this folder: a joint of its own, closed at its last
                          reading, marked as imported. No station may be writing there; its page does the same
  --keep-as NAME          under which name; without it that of the joint file
  --begin                 begin a new record in that folder
  --who NAME --role ROLE  who keeps it: inspector or coordinator
  --decide FINDING=DECISION:REASON
                          a deviation decided on in that name, before the joint is closed: FINDING as it stands in brackets in the
                          answer, DECISION accept, repair or reject. Several may be given; what is not decided stays open`;

export interface Keeping {
  readonly folder: string;
  readonly begin: boolean;
  readonly as: string | undefined;
  readonly keeper: Signed;
  readonly decided: readonly Decided[];
}

/** Of a finding as it will be judged. */
interface Decided {
  readonly finding: string;
  readonly decision: DispositionAct['decision'];
  readonly reason: string;
}

interface Given {
  readonly keep?: string | undefined;
  readonly begin?: boolean | undefined;
  readonly 'keep-as'?: string | undefined;
  readonly who?: string | undefined;
  readonly role?: string | undefined;
  readonly decide?: readonly string[] | undefined;
}

/** Undefined where nothing is to be kept, or what is wrong with what was given. */
export const keepingOf = ({
  keep: folder,
  begin,
  'keep-as': as,
  who,
  role,
  decide = [],
}: Given): Keeping | undefined | string => {
  if (folder === undefined) {
    const stray = [begin && 'begin', as && 'keep-as', who && 'who', role && 'role', decide.length > 0 && 'decide'].find(
      (each) => each,
    );
    return stray === undefined ? undefined : `--${stray} goes with --keep`;
  }
  const named = { name: who ?? '', ...(role === undefined ? {} : { role }) };
  const person = personSchema.safeParse(named);
  const decided = decide.map(decidedIn);
  const unread = decided.indexOf(undefined);
  if (unread >= 0)
    return `--decide wants FINDING=DECISION:REASON, the decision accept, repair or reject, and a reason; found "${decide[unread]}"`;
  const found = person.success
    ? [...dutyProblems('import', person.data), ...(decide.length > 0 ? dutyProblems('disposition', person.data) : [])]
    : problems(person.error, named, personSchema);
  const [wrong] = found;
  if (!person.success || wrong !== undefined) {
    return `--keep wants --who NAME, and --role where it is stated: found ${wrong?.found}; allowed is ${wrong?.allowed}`;
  }
  const keeper = signedBy(person.data, { proof: 'typed name' });
  return { folder, begin: begin === true, as, keeper, decided: decided.filter((each) => each !== undefined) };
};

const decidedIn = (text: string): Decided | undefined => {
  const [, finding, decision, reason] = /^(.+?)=(accept|repair|reject):\s*(\S.*)$/s.exec(text.trim()) ?? [];
  if (finding === undefined || reason === undefined) return undefined;
  return { finding, decision: decision as Decided['decision'], reason };
};

/** What was decided, of the findings as they are judged before the joint is closed; in words what cannot be. */
export const decisionsOn = (
  { findings }: Assessment,
  decided: readonly Decided[],
): readonly DispositionAct[] | string => {
  const acts: DispositionAct[] = [];
  const open = findings.filter(needsAnswer);
  for (const { finding: key, decision, reason } of decided) {
    const finding = open.find((each) => each.key === key);
    if (finding === undefined)
      return `--decide ${key}: no such deviation; ${open.length === 0 ? 'there is none' : `there are: ${open.map((each) => each.key).join(', ')}`}`;
    const seen = finding.value === undefined ? {} : { value: finding.value };
    acts.push({ kind: 'disposition', finding: key, decision, ...seen, reason });
  }
  return acts;
};

/** Opens the record for writing, and closes it in any case. Answers with what went wrong, in words. */
export const withRecord = (
  { folder, begin }: Pick<Keeping, 'folder' | 'begin'>,
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
    if (cause instanceof RecordRefusal && cause.reason === 'open elsewhere')
      return `${cause.message} If that is the station, do this on its page instead.`;
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
