/**
 * Looks through the cards of all joints: each word has to stand somewhere in the joint's words, as a part of a word too; filters narrow.
 * Newest first. What is found is told with how many were looked through, so that "nothing" is an answer.
 */
import type { Verdict } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import type { Instant } from '../measure/quantity.ts';
import type { SourceKind } from '../weld/entry.ts';
import type { Card } from './card.ts';
import { type WordField, wordFields } from './card-words.ts';
import { foldCase } from './fold-case.ts';

export interface Asked {
  /** Words of any field, apart by white space; all of them. */
  readonly words?: string;
  /** Words of one field. */
  readonly in?: { readonly [field in WordField]?: string };
  /** Of the role with which the person was there; goes with `in.person`, or stands alone. */
  readonly role?: string;
  /** Joints that were worked on between the two. */
  readonly from?: Instant;
  readonly to?: Instant;
  readonly state?: 'open' | 'closed';
  readonly verdict?: Verdict;
  readonly finding?: FindingKind;
  readonly source?: SourceKind;
  /** Repairs of that joint, or of any. */
  readonly repairOf?: string | true;
}

/** A card as it is kept in memory: its words folded once. */
export interface Kept {
  readonly card: Card;
  readonly folded: { readonly [field in WordField]: string };
  readonly all: string;
}

export interface Found {
  /** Newest first. */
  readonly cards: readonly Card[];
  readonly searched: number;
}

/** Stands between two texts, so that no word is found across them. */
const between = '\n';

export function keep(card: Card): Kept {
  const folded = Object.fromEntries(
    wordFields.map((field) => [field, foldCase(card.words[field].join(between))]),
  ) as Kept['folded'];
  return { card, folded, all: wordFields.map((field) => folded[field]).join(between) };
}

export function search(kept: Iterable<Kept>, asked: Asked): Found {
  const fits = fitting(asked);
  const cards: Card[] = [];
  let searched = 0;
  for (const each of kept) {
    searched += 1;
    if (fits(each)) cards.push(each.card);
  }
  return { cards: cards.sort((a, b) => b.lastAt - a.lastAt || (a.chain < b.chain ? -1 : 1)), searched };
}

/** Where the words of a question stand in a joint, as they were written; fields that everybody sees anyhow are left out. */
export function placesOf(card: Card, asked: Asked): { readonly field: WordField; readonly text: string }[] {
  const sought = [...wordsOf(asked.words), ...wordFields.flatMap((field) => wordsOf(asked.in?.[field]))];
  return wordFields.flatMap((field) =>
    card.words[field]
      .filter((text) => sought.some((word) => foldCase(text).includes(word)))
      .map((text) => ({ field, text })),
  );
}

type Test = (kept: Kept) => boolean;

function fitting(asked: Asked): Test {
  const tests: Test[] = [...wordTests(asked), ...spanTests(asked), ...cardTests(asked).map(ofCard)];
  return (kept) => tests.every((test) => test(kept));
}

function wordTests({ words, in: fields = {}, role }: Asked): Test[] {
  const inAll = wordsOf(words).map(
    (word): Test =>
      ({ all }) =>
        all.includes(word),
  );
  const named = wordFields
    .filter((field) => field !== 'person' || role === undefined)
    .flatMap((field) =>
      wordsOf(fields[field]).map(
        (word): Test =>
          ({ folded }) =>
            folded[field].includes(word),
      ),
    );
  return role === undefined
    ? [...inAll, ...named]
    : [...inAll, ...named, ofCard(hadRole(role, wordsOf(fields.person)))];
}

const hadRole =
  (role: string, name: readonly string[]) =>
  ({ people }: Card): boolean =>
    people.some((each) => each.roles.includes(role) && name.every((word) => foldCase(each.name).includes(word)));

const spanTests = ({ from, to }: Asked): Test[] => [
  ...(from === undefined ? [] : [ofCard(({ lastAt }) => lastAt >= from)]),
  ...(to === undefined ? [] : [ofCard(({ openedAt }) => openedAt <= to)]),
];

function cardTests({ state, verdict, finding, source, repairOf }: Asked): ((card: Card) => boolean)[] {
  const tests: ((card: Card) => boolean)[] = [];
  if (state !== undefined) tests.push(({ open }) => open === (state === 'open'));
  if (verdict !== undefined) tests.push((card) => card.verdict === verdict);
  if (finding !== undefined) tests.push(({ findings }) => findings.some(({ kind }) => kind === finding));
  if (source !== undefined) tests.push((card) => card.source.kind === source);
  if (repairOf === true) tests.push((card) => card.repairOf !== undefined);
  else if (repairOf !== undefined) tests.push((card) => card.repairOf === repairOf);
  return tests;
}

const ofCard =
  (test: (card: Card) => boolean): Test =>
  ({ card }) =>
    test(card);

const wordsOf = (text: string | undefined): string[] =>
  foldCase(text ?? '')
    .split(/\s+/)
    .filter((word) => word !== '');
