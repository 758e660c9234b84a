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
      const drawn =
        inTable?.position === position ? fromTable(inTable) : fromChain(reader, chain, position, cards.get(chain));
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
  };
}

function fromTable({ position, bytes }: KeptCard): Drawn {
  const card = JSON.parse(new TextDecoder().decode(bytes)) as Card;
  return { kept: keep(card), position, entry: 0, isKept: true };
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
