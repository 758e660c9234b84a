/**
 * `verify RECORD`: is the record as it was written, is it complete in time, and does its own evidence still
 * give the verdict that stands in it? Believes nothing of the record, and may run beside a station.
 */
import { readFileSync, statSync } from 'node:fs';
import { cardsOf } from '../errands/keeping.ts';
import { judgeAll } from '../judgement/judge.ts';
import { findHead, withoutBreaks } from '../ledger/head-text.ts';
import type { KnownElsewhere } from '../ledger/key-faults.ts';
import { limits } from '../measure/limits.ts';
import { builtScript, readProgram } from '../program.ts';
import { RecordRefusal } from '../record/failure.ts';
import { type InspectionOptions, inspectRecord, type RecordInspection, type Rejudge } from '../record/inspection.ts';
import { judgeByOwnRules } from '../record/own-rules.ts';
import { heldIn, openPackage, type Packaged } from '../record/packaged.ts';
import { openRecordReadOnly, type RecordReader } from '../record/read.ts';
import { fitOf } from '../record/retaining.ts';
import { type Certificate, certificatesIn } from '../stamp/certificate.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus, type Terminal } from './command.ts';
import { verifyPackage } from './verify-package.ts';
import { type GivenReadings, ownDiffers, verifyAnswer, verifyText } from './verify-text.ts';

const help = `verify RECORD | PACKAGE.zip [--head TEXT|FILE]... [--key FINGERPRINT] [--tsa-ca FILE] [--rules FILE]...
       [--readings PACKAGE.zip]... [--json]

Checks a record (the folder given to serve as --data): every entry of every chain against its hash and the one
before it, its signature by the station's key, the sealed scans, the documents, and the heads that the station
noted; then gaps in time. The first entry that is not as it was written is named. Each joint is judged again, both by the rules that
judged it then, where they are at hand, shut in without network, disk or other programs, and by those of today.
What search keeps of closed joints, drawn out of the chains, is held against them.
It reads only, and may run beside a station that writes. A package (command "package") is checked likewise.

  --head TEXT|FILE        a head known from elsewhere, as it stands on a report or in the code that a screen showed:
                          CHAIN=SEQ:HASH, with or without the signature behind it; or the file of one. The chain of that joint must hold
                          an entry SEQ with that hash, and the signature be by a key of the record. May be given
                          several times.
  --key FINGERPRINT       the key that the record must be signed by, as printed on an earlier report: its fingerprint,
                          or at least the first 16 characters of it
  --tsa-ca FILE           certificates (PEM) of a time stamp authority that you trust: time stamps in the record must go
                          back to one of them. Without it is told who stamped, and trusting that one is left to you
  --rules FILE            the rules that judged then, as one script, where a record does not keep them itself
                          (rules/SHA256.js of a package). Taken where their SHA-256 is the one that the record names
  --readings PACKAGE      the package that holds the readings of a joint, where they were removed from the record: they are
                          then checked, and the joint judged again, as if they were in it. May be given several times
  --json                  the answer as JSON
  --help                  this page

Readings that a person removed into a package (command "remove-readings") are named with who, when, why and which package holds
them; the record is intact without them. Readings that are not there without such an entry are altered.

Exit status: 0 as it was written, 1 altered, or a verdict or the search list differs, 3 bad input or no record there.
An intact record says that nothing was changed after it was written. Whoever holds the station's key can rewrite all of
it until a head has left the house: give the one that you were handed with --head. It never says that a weld is sound
or safe.

Example: npm run -s ledger -- verify data`;

/** The command with the judge that it compares with; handed in, so that a test can hand in another. */
export const verifyWith = (rejudge: Rejudge): Command => {
  const command: Command = {
    name: 'verify',
    summary: 'a record or a package checked: altered, signed, complete, and judged anew',
    help,
    run: async (args, terminal) => {
      const asked = readArguments(
        command,
        {
          json: { type: 'boolean' },
          head: { type: 'string', multiple: true },
          key: { type: 'string' },
          'tsa-ca': { type: 'string' },
          rules: { type: 'string', multiple: true },
          readings: { type: 'string', multiple: true },
        },
        args,
        terminal,
      );
      if (typeof asked === 'number') return asked;
      const [folder, ...rest] = asked.positionals;
      if (folder === undefined || rest.length > 0)
        return refuse(command, 'name one record (a folder) or one package (a file)', terminal);
      const known = knownFrom(asked.values);
      if (typeof known === 'string') return refuse(command, known, terminal);
      const scripts = scriptsIn(asked.values.rules ?? []);
      if (typeof scripts === 'string') return refuse(command, scripts, terminal);
      if (isFile(folder)) return verifyPackage(folder, known, asked.values.json === true, terminal);
      const given = readingsGiven(folder, asked.values.readings ?? []);
      if ('refused' in given) {
        terminal.err(given.refused);
        return exitStatus.failed;
      }
      const readings = heldIn(given.packages);
      const seen = inspect(folder, { ...known, rejudge, readings }, terminal);
      if (seen === undefined) return exitStatus.failed;
      const joints = seen.chains.filter(({ ok, openedAt }) => ok && openedAt !== undefined);
      const own = await judgeByOwnRules(folder, joints, scriptsAtHand(scripts), readings);
      // Of an altered record the chains come first.
      const cards = seen.ok ? cardsOf(folder, readProgram()) : undefined;
      const { json } = asked.values;
      const told = json === true ? JSON.stringify(verifyAnswer(seen, own, cards, given), null, 2) : undefined;
      terminal.out(told ?? verifyText(folder, seen, own, cards, given));
      const differs = seen.verdictDiffers || joints.some((each) => ownDiffers(each, own.get(each.chain)));
      const listStands = (cards?.differing ?? []).length === 0;
      return seen.ok && !differs && listStands ? exitStatus.done : exitStatus.doesNotComply;
    },
  };
  return command;
};

export const verify: Command = verifyWith((inputs) => judgeAll(inputs).assessment);

const isFile = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() === true;

const inspect = (folder: string, options: InspectionOptions, terminal: Terminal): RecordInspection | undefined => {
  try {
    return inspectRecord(folder, options);
  } catch (error) {
    if (!(error instanceof RecordRefusal)) throw error;
    terminal.err(error.message);
    return undefined;
  }
};

/** What was given of another hand, or what is wrong with it. */
interface Given {
  readonly head?: string[] | undefined;
  readonly key?: string | undefined;
  readonly 'tsa-ca'?: string | undefined;
}
const knownFrom = (given: Given): KnownElsewhere | string => {
  const knownHeads = (given.head ?? []).map(headGiven);
  if (knownHeads.includes(undefined))
    return '--head wants CHAIN=SEQ:HASH, the hash with 64 hexadecimal digits, or with its signature behind it, as printed; or a file that holds one';
  const key = given.key === undefined ? undefined : withoutBreaks(given.key).toLowerCase();
  if (key !== undefined && !/^[0-9a-f]{16,64}$/.test(key))
    return '--key wants the fingerprint of a key, at least its first 16 hexadecimal digits';
  const trusted = given['tsa-ca'] === undefined ? undefined : trustedIn(given['tsa-ca']);
  if (trusted === 'none')
    return `--tsa-ca wants a file with certificates (PEM or DER); ${given['tsa-ca']} holds none that can be read`;
  return {
    knownHeads: knownHeads.filter((head) => head !== undefined),
    ...(key === undefined ? {} : { knownKey: key }),
    ...(trusted === undefined ? {} : { trusted }),
  };
};

/** As text, or the file that it names. */
const headGiven = (text: string): ReturnType<typeof findHead> =>
  findHead(isFile(text) ? readFileSync(text, 'utf8').slice(0, limits.textMaximum) : text);

/** The rules that this installation was built with, and those that were given. */
const scriptsAtHand = (given: readonly Uint8Array[]): readonly Uint8Array[] => {
  const built = builtScript();
  return built === undefined ? given : [built.bytes, ...given];
};

const scriptsIn = (paths: readonly string[]): readonly Uint8Array[] | string => {
  const missing = paths.find((path) => !isFile(path));
  if (missing !== undefined) return `--rules wants the file of a script of rules; there is no file ${missing}`;
  return paths.map((path) => new Uint8Array(readFileSync(path)));
};

type Readings = GivenReadings & { readonly packages: readonly Packaged[] };

/** Each fits a joint of the record whose readings were removed, or the question is a mistake and says so. */
const readingsGiven = (folder: string, paths: readonly string[]): Readings | { readonly refused: string } => {
  if (paths.length === 0) return { packages: [] };
  const missing = paths.find((path) => !isFile(path));
  if (missing !== undefined) return { refused: `--readings wants a package (.zip); there is no file ${missing}.` };
  try {
    return withReader(folder, (reader) => {
      const packages: Packaged[] = [];
      for (const path of paths) {
        const opened = openPackage(readFileSync(path));
        const fit = 'refused' in opened ? opened : fitOf(reader, opened, 'put back');
        if ('refused' in fit) return { refused: `${path}: ${fit.refused}` };
        packages.push(opened as Packaged);
      }
      return { packages };
    });
  } catch (error) {
    if (!(error instanceof RecordRefusal)) throw error;
    return { refused: error.message };
  }
};

const withReader = <T>(folder: string, work: (reader: RecordReader) => T): T => {
  const reader = openRecordReadOnly(folder);
  try {
    return work(reader);
  } finally {
    reader.close();
  }
};

const trustedIn = (path: string): readonly Certificate[] | 'none' => {
  try {
    return certificatesIn(readFileSync(path));
  } catch {
    return 'none';
  }
};
