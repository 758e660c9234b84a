/** What `verify` answers, in words and as JSON. What is wrong comes first. */
import type { CardsCheck } from '../errands/past-cards.ts';
import type { Gaps } from '../ledger/coverage.ts';
import { isJointChain, stationChain } from '../ledger/item.ts';
import { fingerprintOf } from '../ledger/keys.ts';
import { isRemoved } from '../ledger/removal-entry.ts';
import { instant, milliseconds } from '../measure/quantity.ts';
import {
  againWords,
  badReasons,
  keyFaultText,
  sharedJudge,
  stampFaultLines,
  stampLines,
} from '../proof/package-words.ts';
import { plainStamp } from '../proof/stamps.ts';
import type { InspectedChain, RecordInspection } from '../record/inspection.ts';
import type { ByOwnRules } from '../record/own-rules.ts';
import type { Packaged } from '../record/packaged.ts';
import { proofs } from '../weld/person.ts';
import { cardsText } from '../wording/keeping.ts';
import { holdingPackageText, notLookedAtText, removalLines, removedText } from '../wording/removal.ts';
import { proofText } from '../wording/signed.ts';
import { durationText, instantText } from '../wording/time.ts';

type OwnRules = ReadonlyMap<string, ByOwnRules>;

/** Of what is sealed: while scans wait, the two were not judged from the same. */
export const ownDiffers = ({ recordedVerdict, unsealed }: InspectedChain, own: ByOwnRules | undefined): boolean =>
  own !== undefined &&
  unsealed === 0 &&
  recordedVerdict !== undefined &&
  'verdict' in own.again &&
  own.again.verdict !== recordedVerdict;

/** Gaps that are written out; more are counted. */
const gapsWritten = 5;

/** Packages that were given for readings that are not in the record. */
export interface GivenReadings {
  readonly packages: readonly Pick<Packaged, 'chain' | 'sha256'>[];
}
const noReadings: GivenReadings = { packages: [] };
const givenFor = ({ packages }: GivenReadings, chain: string) => packages.find((each) => each.chain === chain);

export const verifyText = (
  folder: string,
  seen: RecordInspection,
  own: OwnRules = new Map(),
  cards?: CardsCheck,
  given: GivenReadings = noReadings,
): string =>
  [
    ...headline(folder, seen, own),
    ...seen.chains.flatMap((chain) => removedLine(chain, givenFor(given, chain.chain))),
    ...differingText(folder, cards),
    ...seen.chains.flatMap((chain) => [
      '',
      ...chainText(chain, seen.keys.length > 0, own.get(chain.chain), givenFor(given, chain.chain) !== undefined),
    ]),
    '',
    ...keysText(seen),
    ...documentsText(seen.documents),
    ...proceduresText(seen.procedures),
    ...comparedText(cards),
    '',
    ...(seen.chains.some(({ openedAt }) => openedAt !== undefined) ? [sharedJudge] : []),
    ...whatSoundMeans,
  ].join('\n');

/** Plain data: sets and maps that served the inspection are left out. */
export const verifyAnswer = (
  seen: RecordInspection,
  own: OwnRules = new Map(),
  cards?: CardsCheck,
  given: GivenReadings = noReadings,
): object => ({
  ...seen,
  ...(cards === undefined ? {} : { searchList: cards }),
  chains: seen.chains.map(
    ({ attached: _, named: __, noted: ___, revisions: ____, bound: _____, stamps, ...chain }) => ({
      ...chain,
      stamps: stamps.map(plainStamp),
      ...(isRemoved(chain.removals.at(-1)) ? { readings: whereReadings(givenFor(given, chain.chain)) } : {}),
      ...(own.has(chain.chain) ? { ownRules: own.get(chain.chain) } : {}),
      ...(isJointChain(chain.chain) ? { measured: isMeasured(chain) } : {}),
    }),
  ),
});

const whereReadings = (given: GivenReadings['packages'][number] | undefined): object =>
  given === undefined ? { state: 'removed' } : { state: 'removed, checked in a package', package: given.sha256 };

/** Neither a gap nor tampering, and not all there. */
const removedLine = (
  { chain, ok, removals }: InspectedChain,
  given: GivenReadings['packages'][number] | undefined,
): string[] => {
  const removed = removals.at(-1);
  if (!ok || !isRemoved(removed)) return [];
  const where =
    given === undefined
      ? 'They were not looked at: give that package with --readings FILE.'
      : given.sha256 === removed.package
        ? 'They were looked at in that package.'
        : `They were looked at in another package, SHA-256 ${given.sha256}, which holds the same.`;
  return [`READINGS REMOVED of ${chain}: ${removedText(removed)}; ${holdingPackageText(removed)}. ${where}`];
};

const headline = (folder: string, seen: RecordInspection, own: OwnRules): string[] => {
  const lines: string[] = [];
  for (const chain of seen.chains.filter((each) => each.verdictDiffers)) {
    lines.push(
      `VERDICT DIFFERS for ${chain.chain}: recorded ${chain.recordedVerdict}, judged now ${chain.rejudgedVerdict}.`,
    );
  }
  for (const chain of seen.chains.filter((each) => ownDiffers(each, own.get(each.chain)))) {
    const { program, again } = own.get(chain.chain)!;
    const now = 'verdict' in again ? again.verdict : '';
    lines.push(
      `VERDICT DIFFERS for ${chain.chain}: recorded ${chain.recordedVerdict}, judged again by its own rules (${program}): ${now}.`,
    );
  }
  const stamps = seen.chains.flatMap((chain) => chain.stamps.flatMap(stampFaultLines));
  const standing =
    seen.firstBad === undefined && seen.damaged === undefined && seen.keyFaults.length + stamps.length > 0;
  if (seen.ok) lines.push(`INTACT: the record in ${folder} is as it was written.`);
  else lines.push(standing ? `NOT VOUCHED FOR: the record in ${folder}.` : `ALTERED: the record in ${folder}.`);
  lines.push(...seen.keyFaults.map(keyFaultText), ...stamps);
  if (seen.damaged !== undefined)
    lines.push(`The database file is damaged: ${seen.damaged}. Restore a copy of the folder.`);
  if (seen.firstBad !== undefined) {
    const { chain, seq, why, detail } = seen.firstBad;
    lines.push(`First bad entry: entry ${seq} of ${chain}: ${badReasons[why]}. ${upper(detail)}.`);
  }
  return lines;
};

/** Silent where all is signed, and where the record has no key at all. */
const signedLines = ({ signedFrom, entries }: InspectedChain): string[] => {
  if (signedFrom === 1) return [];
  if (signedFrom === undefined) return entries === 0 ? [] : ['NOT SIGNED'];
  return [`signed from entry ${signedFrom} on; what was written before the key was made is covered by that`];
};

const keysText = ({ keys }: RecordInspection): string[] =>
  keys.length === 0
    ? ['NOT SIGNED: the record has no key. Whoever can write to it could have made it anew.']
    : keys.map(
        ({ number, key, seq, reason }) =>
          `key ${number}, from entry ${seq} of ${stationChain} on${reason === undefined ? '' : ` (${reason})`}: fingerprint ${fingerprintOf(key)}`,
      );

const whatSoundMeans = [
  "Intact means: not changed since it was written, as far as nobody but the station has its key. Whoever has the station's",
  'key can rewrite all of it until a head has left the house: compare with one that you were handed (--head). It does',
  'not say that a probe was where the record says, nor that a weld is sound or safe.',
];

const chainText = (chain: InspectedChain, hasKey: boolean, own: ByOwnRules | undefined, isGiven: boolean): string[] => {
  const count = `${chain.entries} ${chain.entries === 1 ? 'entry' : 'entries'}`;
  const lines = [
    `${chain.chain}: ${chain.ok ? `intact, ${count}` : `ALTERED, ${count} stand before it`}`,
    `  head ${chain.head.seq}:${chain.head.hash}`,
  ];
  if (hasKey) lines.push(...signedLines(chain).map((line) => `  ${line}`));
  if (isJointChain(chain.chain)) lines.push(...jointText(chain, own, isGiven).map((line) => `  ${line}`));
  lines.push(...chain.stamps.flatMap(stampLines).map((line) => `  ${line}`));
  if (chain.unsealed > 0)
    lines.push(`  ${scans(chain.unsealed)} not sealed yet: kept, and without a hash until the next minute`);
  if (chain.stepsBack > 0)
    lines.push(`  the clock stepped back ${chain.stepsBack} ${chain.stepsBack === 1 ? 'time' : 'times'}`);
  return lines;
};

const jointText = (chain: InspectedChain, own: ByOwnRules | undefined, isGiven: boolean): string[] => {
  const lines = [sourceText(chain)];
  if (chain.from === undefined || chain.to === undefined) lines.push('no sealed scan');
  else lines.push(`${scans(chain.scans)}, measured from ${time(chain.from)} to ${time(chain.to)}`);
  for (const { board, gaps } of chain.gaps) {
    lines.push(
      gaps.count === 0 ? `no gap in the readings of ${board}` : gapsText(`without readings of ${board}`, gaps),
    );
  }
  lines.push(...removalLines(chain.removals));
  if (isRemoved(chain.removals.at(-1)) && !isGiven) lines.push(notLookedAtText);
  if (chain.asleep.count > 0) lines.push(gapsText('without a sign that the station was awake', chain.asleep));
  lines.push(...namesText(chain));
  lines.push(chain.closedAt === undefined ? 'still open' : `closed ${time(chain.closedAt)}`);
  return [...lines, ...verdictLines(chain, own)];
};

/** Silent where no entry says how its name was established, as in records of before. */
const namesText = ({ names }: InspectedChain): string[] => {
  const proven = proofs.filter((proof) => names[proof] !== undefined);
  if (proven.length === 0) return [];
  const counts = proven.map((proof) => `${names[proof]} ${proofText(proof)}`);
  const unknown = names['not stated'] === undefined ? [] : [`${names['not stated']} that do not say`];
  return [`entries by people: ${[...counts, ...unknown].join(', ')}`];
};

const isMeasured = ({ source, declaredBy }: Pick<InspectedChain, 'source' | 'declaredBy'>): boolean =>
  source?.kind === 'measured' || (source?.kind === 'not verified' && declaredBy !== undefined);

const sourceText = ({ source, declaredBy }: InspectedChain): string => {
  if (source === undefined) return 'SOURCE NOT STATED';
  const said = `${source.kind === 'measured' ? 'measured' : source.kind.toUpperCase()} (${source.detail})`;
  return declaredBy === undefined ? said : `${said}; source declared by ${[...new Set(declaredBy)].join(', ')}`;
};

const verdictLines = (
  { recordedVerdict, rejudgedVerdict, notRejudged, unsealed }: InspectedChain,
  own?: ByOwnRules,
): string[] => {
  const today =
    notRejudged !== undefined
      ? { failed: notRejudged }
      : rejudgedVerdict === undefined
        ? undefined
        : { verdict: rejudgedVerdict };
  return [
    recordedVerdict === undefined ? 'no verdict recorded' : `verdict recorded: ${recordedVerdict}`,
    ...(own === undefined
      ? []
      : [
          againWords(
            `its own rules (${own.program}, shut in${unsealed > 0 ? ', what is sealed' : ''})`,
            recordedVerdict,
            own.again,
          ),
        ]),
    ...(today === undefined ? [] : [againWords('the rules of today', recordedVerdict, today)]),
  ];
};

const gapsText = (what: string, gaps: Gaps): string => {
  const listed = gaps.listed
    .slice(0, gapsWritten)
    .map(({ from, to }) => `${time(from)} for ${durationText(milliseconds(to - from))}`);
  const more = gaps.count - listed.length;
  const times = `${gaps.count} ${gaps.count === 1 ? 'time' : 'times'}, ${durationText(milliseconds(gaps.totalMilliseconds))} in all`;
  return `${times}, ${what}: ${listed.join('; ')}${more > 0 ? `; and ${more} more` : ''}`;
};

const documentsText = ({ kept, altered, missing, notKept }: RecordInspection['documents']): string[] => [
  `documents kept: ${kept}`,
  ...altered.map((sha256) => `  ALTERED: ${sha256}`),
  ...missing.map((sha256) => `  MISSING: ${sha256}, handed in by an entry`),
  ...notKept.map((sha256) => `  named by an analysis and not kept here: ${sha256}`),
];

/** Not a word of alteration: the list is drawn out of the chains, which stand. */
const differingText = (folder: string, cards: CardsCheck | undefined): string[] =>
  cards === undefined || cards.differing.length === 0
    ? []
    : [
        `SEARCH LIST DIFFERS: ${cardsText(cards.differing)}`,
        `  It is made again from the chains by a station on this record, half a minute after its start: npm start -- --data ${folder}`,
      ];

const comparedText = (cards: CardsCheck | undefined): string[] =>
  cards === undefined || cards.compared === 0
    ? []
    : [
        `search list: ${cards.compared} ${cards.compared === 1 ? 'joint' : 'joints'} compared with their chains, ${cards.differing.length} ${cards.differing.length === 1 ? 'differs' : 'differ'}`,
      ];

const proceduresText = ({ revisions, notKept }: RecordInspection['procedures']): string[] =>
  revisions === 0 && notKept.length === 0
    ? []
    : [
        `revisions of procedures kept: ${revisions}`,
        ...notKept.map((sha256) => `  a joint is bound to a revision that is not kept here: ${sha256}`),
      ];

const scans = (count: number): string => `${count} ${count === 1 ? 'scan' : 'scans'}`;
const time = (at: number): string => instantText(instant(at), 'UTC');
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
