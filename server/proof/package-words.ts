/** What the inspection of a package found, in words, the same on the terminal and on the page in the package. What is wrong comes first. */
import { headText } from '../ledger/head-text.ts';
import type { KeyFault } from '../ledger/key-faults.ts';
import { fingerprintOf } from '../ledger/keys.ts';
import type { BadWhy } from '../ledger/verify.ts';
import { instant, milliseconds } from '../measure/quantity.ts';
import { notLookedAtText, removalLines } from '../wording/removal.ts';
import { stampFaultText, stampText, trustText } from '../wording/stamp.ts';
import { durationText, instantText } from '../wording/time.ts';
import type { FileFault } from './files.ts';
import type { PackageInspection } from './inspect-package.ts';
import type { SeenStamp } from './stamps.ts';

export const badReasons: Readonly<Record<BadWhy, string>> = {
  altered: 'altered',
  missing: 'missing',
  moved: 'not in its place',
  'put in': 'put in by another hand',
  'scans altered': 'the scans that belong to it are altered or missing',
  'cut off': 'the end is cut off from here on',
  'not the known head': 'not the entry that is known from elsewhere',
  'not signed': "not signed by the station's key",
};

const fileReasons: Readonly<Record<FileFault['why'], string>> = {
  altered: 'is altered',
  missing: 'is missing',
  added: 'was added by another hand',
  'not sealed': "is not signed by the station's key",
  'not the document': 'is not the document that the record hands in',
  'not the stamp': 'is not what the record holds as its time stamp',
  'not the head': 'does not give the newest entry of the record',
  'of another joint': 'is a head of another joint: give the package that it belongs to',
};

export const keyFaultText = (fault: KeyFault): string => {
  switch (fault.kind) {
    case 'not handed over':
      return `Key ${fault.key.number}, from entry ${fault.key.seq} of station on, was not handed over by the key before it: that one was lost, or somebody without it wrote on. Believe what came after only against a head known from elsewhere.`;
    case 'head of another key':
      return `The head given for entry ${fault.head.seq} of ${fault.head.chain} is signed, and by no key of this record: it is another record, or one made anew with another key.`;
    case 'not the known key':
      return `No key of this record has the fingerprint ${fault.known}.`;
  }
};

/** First line: how it stands. Then the first bad entry, then every file and key that is not as it should be. */
export const standingWords = (seen: PackageInspection): string[] => {
  // Without the key nothing else of the signatures means anything.
  const bad = seen.stationFault ?? seen.firstBad;
  const chain = seen.stationFault === undefined ? seen.chain : 'station';
  return [
    seen.intact
      ? seen.keys.length === 0
        ? 'INTACT, AND NOT SIGNED: whoever could write to this record could have made it anew.'
        : seen.away === undefined
          ? 'INTACT: as it was written, and signed by the station throughout.'
          : 'INTACT, AND WITHOUT READINGS: its entries are as they were written, and signed by the station throughout. Its readings were removed from the record before this package was made; another package holds them.'
      : bad === undefined && seen.fileFaults.length === 0
        ? 'NOT VOUCHED FOR.'
        : 'ALTERED.',
    ...(bad === undefined
      ? []
      : [`First bad entry: entry ${bad.seq} of ${chain}: ${badReasons[bad.why]}. ${upper(bad.detail)}.`]),
    ...seen.fileFaults.map(({ file, why }) => `${file} ${fileReasons[why]}.`),
    ...seen.keyFaults.map(keyFaultText),
    ...seen.stamps.flatMap(stampFaultLines),
  ];
};

export const recordWords = (seen: PackageInspection): string[] => [
  `${seen.chain}: ${seen.entries} entries stand, head ${headText({ chain: seen.chain, ...seen.head })}`,
  ...sourceWords(seen),
  ...coverWords(seen),
  ...seen.keys.map(({ number, key }) => `key ${number}: fingerprint ${fingerprintOf(key)}`),
  ...(seen.keys.length > 0 && seen.signedFrom !== undefined && seen.signedFrom > 1
    ? [`signed from entry ${seen.signedFrom} on; what was written before the key was made is covered by that`]
    : []),
  seen.sealed
    ? "report, CSV and the other files: the station's key vouches for them"
    : 'report and CSV: NOTHING VOUCHES FOR THEM; believe the entries only',
  ...seen.stamps.flatMap(stampLines),
  seen.recordedVerdict === undefined ? 'no verdict recorded' : `verdict recorded: ${seen.recordedVerdict}`,
];

/** What speaks against a time stamp, or against whoever gave it. */
export const stampFaultLines = ({ seq, head, fault, trust }: SeenStamp): string[] => {
  const of = `The time stamp of entry ${head.seq} of ${head.chain}, kept in entry ${seq},`;
  if (fault !== undefined) return [`${of} DOES NOT HOLD: ${stampFaultText(fault)}.`];
  return trust !== undefined && 'lacks' in trust ? [`${of} is ${trustText(trust)}.`] : [];
};

export const stampLines = ({ head, stamp, fault, trust, writtenAt }: SeenStamp): string[] =>
  stamp === undefined || fault !== undefined
    ? []
    : [
        `time stamp: entry ${head.seq}, and with it all before it, was there at ${stampText(stamp)}; ${trustText(trust)}${
          writtenAt === undefined ? '' : `. By the station's clock that entry was written at ${time(writtenAt)}`
        }`,
      ];

const sourceWords = ({ source, declaredBy }: PackageInspection): string[] => {
  if (source === undefined) return ['SOURCE NOT STATED'];
  const said = `${source.kind === 'measured' ? 'measured' : source.kind.toUpperCase()} (${source.detail})`;
  return [declaredBy === undefined ? said : `${said}; source declared by ${[...new Set(declaredBy)].join(', ')}`];
};

const coverWords = (seen: PackageInspection): string[] => {
  const lines: string[] = [];
  if (seen.from === undefined || seen.to === undefined) lines.push('no sealed reading');
  else lines.push(`${seen.scans} scans, measured from ${time(seen.from)} to ${time(seen.to)}`);
  for (const { board, gaps } of seen.gaps)
    lines.push(
      gaps.count === 0
        ? `no gap in the readings of ${board}`
        : `${gaps.count} gaps in the readings of ${board}, ${durationText(milliseconds(gaps.totalMilliseconds))} in all, the longest ${longest(gaps.listed)}`,
    );
  lines.push(...removalLines(seen.removals));
  if (seen.away !== undefined) lines.push(notLookedAtText);
  if (seen.asleep.count > 0)
    lines.push(
      `${seen.asleep.count} times without a sign that the station was awake, ${durationText(milliseconds(seen.asleep.totalMilliseconds))} in all`,
    );
  if (seen.stepsBack > 0) lines.push(`the clock stepped back ${seen.stepsBack} times`);
  lines.push(seen.closedAt === undefined ? 'STILL OPEN when the package was made' : `closed ${time(seen.closedAt)}`);
  return lines;
};

export type Again = { readonly verdict: string } | { readonly failed: string };

/** What judging again gave, beside the verdict that was recorded. */
export const againWords = (by: string, recorded: string | undefined, again: Again): string => {
  if ('failed' in again) return `NOT JUDGED AGAIN by ${by}: ${again.failed}`;
  if (recorded === undefined) return `judged again by ${by}: ${again.verdict}`;
  return again.verdict === recorded
    ? `judged again by ${by}: the same`
    : `VERDICT DIFFERS: recorded ${recorded}, judged again by ${by}: ${again.verdict}`;
};

/** Why a package is not judged again at all; undefined where it can be. */
export const notJudgedBecause = ({ firstBad, away }: PackageInspection): string | undefined => {
  if (firstBad !== undefined) return 'the entries are not as they were written';
  return away === undefined
    ? undefined
    : `the readings are not in this package. Judge the one with the SHA-256 ${away.package}`;
};

export const sharedJudge =
  'Recorded and judged again share one judge: that both say the same shows that the verdict follows from the readings by these rules, not that the rules are right.';

export const whatSoundMeans =
  "Intact means: not changed since it was written, as far as nobody but the station has its key. Whoever has the station's key can rewrite all of it until a head has left the house: compare with one that you were handed. It does not say that a probe was where the record says, nor that a weld is sound or safe.";

const longest = (gaps: readonly { readonly from: number; readonly to: number }[]): string =>
  durationText(milliseconds(Math.max(...gaps.map(({ from, to }) => to - from))));
const time = (at: number): string => instantText(instant(at), 'UTC');
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
