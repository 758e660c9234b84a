/** `verify PACKAGE.zip`: a package checked, judged again by its own rules, shut in, and by those of today. */
import { readFileSync } from 'node:fs';
import type { KnownElsewhere } from '../ledger/key-faults.ts';
import { inspectPackage, type PackageInspection } from '../proof/inspect-package.ts';
import {
  type Again,
  againWords,
  notJudgedBecause,
  recordWords,
  sharedJudge,
  standingWords,
  whatSoundMeans,
} from '../proof/package-words.ts';
import { judge as judgeToday } from '../proof/rules-script.ts';
import { plainStamp } from '../proof/stamps.ts';
import { unzipped } from '../proof/zip.ts';
import { mathematics } from '../record/certificate-signature.ts';
import { sha256 } from '../record/ed25519.ts';
import { judgeShutIn } from '../record/shut-in.ts';
import { exitStatus, type Terminal } from './command.ts';

export const verifyPackage = async (
  path: string,
  known: KnownElsewhere,
  json: boolean,
  terminal: Terminal,
): Promise<number> => {
  const bytes = readFileSync(path);
  const unpacked = unzipped(bytes);
  if ('refused' in unpacked) {
    terminal.err(`${path}: ${unpacked.refused}`);
    return exitStatus.failed;
  }
  const seen = inspectPackage(unpacked.files, mathematics, known);
  const own = await byOwnRules(seen);
  const today = byToday(seen);
  const differs = [own, today].some((again) => isOther(seen, again));
  const file = sha256(bytes);
  terminal.out(json ? answer(file, seen, own, today) : words(path, file, seen, own, today));
  return seen.intact && !differs ? exitStatus.done : exitStatus.doesNotComply;
};

/** The script is believed in nothing: whoever made the package could have written it. */
const byOwnRules = async (seen: PackageInspection): Promise<Again> => {
  const { rules, texts } = seen;
  const against = notJudgedBecause(seen);
  if (against !== undefined) return { failed: against };
  if (rules === undefined) return { failed: 'the record names no rules of its own' };
  if (rules.script === undefined) return { failed: `rules/${rules.sha256}.js is missing or altered` };
  return judgeShutIn(rules.script, JSON.stringify(texts));
};

const byToday = (seen: PackageInspection): Again => {
  const against = notJudgedBecause(seen);
  if (against !== undefined) return { failed: against };
  try {
    return JSON.parse(judgeToday(JSON.stringify(seen.texts))) as { verdict: string };
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
};

const isOther = ({ recordedVerdict }: PackageInspection, again: Again): boolean =>
  recordedVerdict !== undefined && 'verdict' in again && again.verdict !== recordedVerdict;

const ownName = ({ rules }: PackageInspection): string =>
  rules === undefined ? 'its own rules' : `its own rules (${rules.program}, shut in)`;

const words = (path: string, file: string, seen: PackageInspection, own: Again, today: Again): string =>
  [
    `${path}: ${standingWords(seen).join('\n')}`,
    '',
    `SHA-256 of this file: ${file}`,
    ...recordWords(seen),
    againWords(ownName(seen), seen.recordedVerdict, own),
    againWords('the rules of today', seen.recordedVerdict, today),
    '',
    sharedJudge,
    whatSoundMeans,
  ].join('\n');

const answer = (file: string, seen: PackageInspection, own: Again, today: Again): string => {
  const {
    attached: _,
    named: __,
    noted: ___,
    revisions: ____,
    bound: _____,
    texts: ______,
    rules,
    stamps,
    ...rest
  } = seen;
  const named = rules === undefined ? {} : { rules: { sha256: rules.sha256, program: rules.program } };
  return JSON.stringify(
    { file, ...rest, stamps: stamps.map(plainStamp), ...named, judgedAgain: { own, today } },
    null,
    2,
  );
};
