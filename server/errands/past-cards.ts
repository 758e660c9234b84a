/**
 * The cards of all joints of a record, held in memory for whoever searches and counts, and brought up to the record at each question. Of
 * closed joints they come from the record's own table where this program made it, else from the chain; of open ones always from the chain.
 */
import { isJointChain } from '../ledger/item.ts';
import { type Card, cardOf } from '../past/card.ts';
import { type Kept, keep } from '../past/search.ts';
import type { Program } from '../program.ts';
import type { KeptCard } from '../record/cards.ts';
import type { RecordReader } from '../record/read.ts';

interface Drawn {
  readonly kept: Kept;
  readonly position: number;
  /** Of the newest entry that it was drawn from. */
  readonly entry: number;
  readonly isKept: boolean;
}

/** One more whenever a card of the same chain would come out otherwise. */
const drawing = 1;

/** Which program drew a card: by its rules, and by the way in which it draws. */
export const madeBy = ({ rules }: Pick<Program, 'rules'>): string => `${rules}, cards ${drawing}`;

export interface PastCards {
  /** As the record stands now. */
  all(): Iterable<Kept>;
  /** At most so many of closed joints that the record's table does not hold; each is given out once. */
  toKeep(count: number): readonly KeptCard[];
  /** Nothing that was kept of these chains is believed any more: what is known of them is drawn out of the chain. */
  drawAnew(chains: readonly string[]): void;
}

const ofReader = new WeakMap<RecordReader, PastCards>();

/** One for each reader. */
export function pastCards(reader: RecordReader, program: Pick<Program, 'rules'>): PastCards {
  const known = ofReader.get(reader) ?? createPastCards(reader, madeBy(program));
  ofReader.set(reader, known);
  return known;
}

function createPastCards(reader: RecordReader, made: string): PastCards {
  const cards = new Map<string, Drawn>();
  let upTo = -1;

  const bringUp = (): void => {
    // Read first: what comes in between is then gone through again, and never missed.
    const position = reader.position();
    const table = upTo < 0 ? new Map(reader.cards(made).map((each) => [each.chain, each])) : new Map();
    for (const { chain, position, open } of reader.grownSince(upTo)) {
      if (!isJointChain(chain)) continue;
      const inTable = open ? undefined : table.get(chain);
      const believed = inTable?.position === position ? fromTable(inTable) : undefined;
      const drawn = believed ?? fromChain(reader, chain, position, cards.get(chain));
      if (drawn !== undefined) cards.set(chain, drawn);
    }
    upTo = position;
  };

  return {
    *all() {
      bringUp();
      for (const { kept } of cards.values()) yield kept;
    },
    toKeep(count) {
      bringUp();
      const rows: KeptCard[] = [];
      for (const [chain, drawn] of cards) {
        if (rows.length === count) break;
        if (drawn.isKept || drawn.kept.card.open) continue;
        rows.push({ chain, position: drawn.position, bytes: bytesOf(drawn.kept.card) });
        cards.set(chain, { ...drawn, isKept: true });
      }
      return rows;
    },
    drawAnew(chains) {
      bringUp();
      for (const chain of chains) {
        const drawn = fromChain(reader, chain, cards.get(chain)?.position ?? upTo, undefined);
        if (drawn !== undefined) cards.set(chain, drawn);
      }
    },
  };
}

/** Undefined for what this program cannot have written: it is drawn again. */
function fromTable({ position, bytes }: KeptCard): Drawn | undefined {
  try {
    const card = JSON.parse(new TextDecoder().decode(bytes)) as Card;
    return { kept: keep(card), position, entry: 0, isKept: true };
  } catch {
    return undefined;
  }
}

/** Kept cards held against the chains that they were drawn from. */
export interface CardsCheck {
  readonly compared: number;
  /** Chains whose card says something else than they do, and would be believed by a search. */
  readonly differing: readonly string[];
}

/** Of those that a search by this program believes; it draws any other itself. Entries are read, and no reading is unpacked. */
export function checkCards(reader: RecordReader, program: Pick<Program, 'rules'>): CardsCheck {
  const standing = (): Map<string, number> =>
    new Map(reader.grownSince(-1).map(({ chain, position, open }) => [chain, open ? -1 : position]));
  const before = standing();
  const believed = reader.cards(madeBy(program)).filter(({ chain, position }) => before.get(chain) === position);
  const differing = believed.filter(({ chain, bytes }) => !isDrawnFrom(reader, chain, bytes));
  // A chain that grew meanwhile says more than its card, which nobody believes any longer.
  const after = differing.length === 0 ? before : standing();
  return {
    compared: believed.length,
    differing: differing.filter(({ chain, position }) => after.get(chain) === position).map(({ chain }) => chain),
  };
}

function isDrawnFrom(reader: RecordReader, chain: string, bytes: Uint8Array): boolean {
  const card = cardOf(chain, reader.entries(chain));
  return card !== undefined && Buffer.compare(bytesOf(card), bytes) === 0;
}

/** Readings alone change no card. */
function fromChain(
  reader: RecordReader,
  chain: string,
  position: number,
  before: Drawn | undefined,
): Drawn | undefined {
  const entry = reader.newestEntry(chain);
  if (before?.entry === entry) return { ...before, position };
  const card = cardOf(chain, reader.entries(chain));
  return card === undefined ? undefined : { kept: keep(card), position, entry, isKept: false };
}

const bytesOf = (card: Card): Uint8Array => new TextEncoder().encode(JSON.stringify(card));
