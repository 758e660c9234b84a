/**
 * What is drawn out of the chains of closed joints so that they are found without going through them all again. Derived: whoever
 * empties the table loses nothing but the time to make it anew. What a card says is no matter of this room.
 */
import type { Database } from './database.ts';

export interface KeptCard {
  readonly chain: string;
  /** Newest of the chain that it was drawn from; another one there means that the card is out of date. */
  readonly position: number;
  readonly bytes: Uint8Array;
}
/** A chain of the record that grew. */
export interface GrownChain {
  readonly chain: string;
  readonly position: number;
  readonly open: boolean;
}

export const addCardTable = (database: Database): void =>
  database.exec(`CREATE TABLE IF NOT EXISTS cards (
  chain TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  made TEXT NOT NULL,
  card BLOB NOT NULL
) STRICT, WITHOUT ROWID`);

const hasCardTable = (database: Database): boolean =>
  database.get("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'cards'") !== undefined;

/** All that the same program made. */
export const keptCards = (database: Database, made: string): readonly KeptCard[] =>
  hasCardTable(database)
    ? database
        .all<{ chain: string; position: number; card: Uint8Array }>(
          'SELECT chain, position, card FROM cards WHERE made = ?',
          made,
        )
        .map(({ chain, position, card }) => ({ chain, position, bytes: card }))
    : [];

export const writeCards = (database: Database, made: string, cards: readonly KeptCard[]): void => {
  for (const { chain, position, bytes } of cards) {
    database.run(
      `INSERT INTO cards (chain, position, made, card) VALUES (?, ?, ?, ?)
       ON CONFLICT (chain) DO UPDATE SET position = excluded.position, made = excluded.made, card = excluded.card`,
      chain,
      position,
      made,
      bytes,
    );
  }
};

export const grownSince = (database: Database, position: number): readonly GrownChain[] =>
  database
    .all<{ chain: string; position: number; open: number }>(
      'SELECT chain, position, open FROM chains WHERE position > ?',
      position,
    )
    .map((row) => ({ ...row, open: row.open === 1 }));

/** Number of the newest entry that is not the record's own; 0 where there is none. */
export const newestEntry = (database: Database, chain: string): number =>
  database.get<{ seq: number }>(
    "SELECT seq FROM entries WHERE chain = ? AND class <> 'block' ORDER BY seq DESC LIMIT 1",
    chain,
  )?.seq ?? 0;
