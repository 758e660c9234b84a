/** Readings that went out of a record into a package, in words: never a gap, never tampering, and never as if all were there. */
import type { Instant } from '../measure/quantity.ts';
import type { Signed } from '../weld/signed.ts';
import { nameText } from './signed.ts';
import { instantText } from './time.ts';

export interface RemovalTold extends Signed {
  readonly at: Instant;
  readonly package: string;
  readonly scans: number;
  readonly reason?: string;
}

/** "removed from the record 2026-11-28 10:00:00 UTC by Sara Lindqvist, coordinator: ten years are over". */
export const removedText = (told: RemovalTold, zone = 'UTC'): string =>
  `removed from the record ${instantText(told.at, zone)} by ${nameText(told)}: ${told.reason ?? 'no reason given'}`;

const putBackText = (told: RemovalTold, zone = 'UTC'): string =>
  `put back into the record ${instantText(told.at, zone)} by ${nameText(told)}${told.reason === undefined ? '' : `: ${told.reason}`}`;

export const holdingPackageText = ({ package: sha256 }: Pick<RemovalTold, 'package'>): string =>
  `the package with the SHA-256 ${sha256} holds them`;

/** Where something was asked for that takes the readings. */
export const readingsAwayText = (joint: string, told: RemovalTold, zone = 'UTC'): string =>
  `The readings of ${joint} are not in this record: ${removedText(told, zone)}; ${holdingPackageText(told)}. ${whereToLookText}`;

const whereToLookText =
  'Report, chart and tables of them lie in that package. To work with them here put them back: on the page of the joint, or "put-back-readings RECORD --package FILE".';

/** Beside the name of a joint in a list. */
export const awayTag = 'readings in a package';

/** Of a whole record, where it has such joints. */
export const awayCountText = (joints: number): string =>
  `the readings of ${joints} ${joints === 1 ? 'joint are' : 'joints are'} not in it: they were removed into packages`;

/** Over the way back. */
export const putBackHint =
  'Choose the package that holds them; it is looked through before anything is done. Chart, report, tables and judging again then work as before.';

/** Before it is done, and wherever it was done. */
export const removalCautions: readonly string[] = [
  'From then on the readings exist in the package only, and can be shown and judged again from it only. Keep two copies of it in two places.',
  'Entries, conclusions, documents, hashes and signatures stay. Copies of the record that were made before still hold the readings.',
];

type Told = RemovalTold & { readonly kind: 'readings removed' | 'readings put back'; readonly seq: number };

/** What an inspection tells of them, newest last; silent where all readings were always there. */
export const removalLines = (removals: readonly Told[]): string[] =>
  removals.map((told, index) => {
    const from = `entry ${told.seq}: readings (${told.scans} scans)`;
    if (told.kind === 'readings put back') return `${from} ${putBackText(told)}`;
    const isAway = index === removals.length - 1;
    return `${isAway ? 'READINGS REMOVED, ' : ''}${from} ${removedText(told)}; ${holdingPackageText(told)}`;
  });

/** What could not be looked at without them. */
export const notLookedAtText =
  'the readings themselves and gaps in them were not looked at; what stands here of them is what the entries say that sealed them';

/** As an entry in the list of a joint, where who and when stand beside it. */
export const removalEntryText = ({ kind, scans, package: sha256, reason }: RemovalTold & Pick<Told, 'kind'>): string =>
  `${kind === 'readings removed' ? `${scans} scans removed into the package with the SHA-256` : `${scans} scans put back from the package with the SHA-256`} ${sha256}${reason === undefined ? '' : `: ${reason}`}`;
