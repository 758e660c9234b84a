/**
 * The secrets of people: set, withdrawn and checked. A try is counted before it is checked, so that many at once
 * count as many; after some there is a pause, and a PIN or badge that was wrong too often in a row is withdrawn.
 */
import { limits } from '../measure/limits.ts';
import type { Book } from './book.ts';
import { type PersonKept, refusal } from './people.ts';
import {
  hashOf,
  isToken,
  matches,
  passwordWeakness,
  pinWeakness,
  type ScryptCost,
  type SecretKind,
  scryptCost,
  tokenHash,
} from './secret.ts';

export type Checked = 'right' | 'wrong' | 'paused' | 'withdrawn' | 'busy';

export interface Secrets {
  /** Throws Refusal for a weak one. */
  set(person: PersonKept, kind: SecretKind, secret: string, by: string): Promise<void>;
  withdraw(person: PersonKept, kind: SecretKind, by: string): void;
  /** Undefined: somebody whom nobody knows; takes as long. */
  check(person: PersonKept | undefined, kind: SecretKind, secret: string): Promise<Checked>;
  kinds(person: string): readonly SecretKind[];
}

interface Row {
  readonly hash: string;
  readonly failures: number;
  readonly paused_until: number;
}

export function createSecrets(book: Book, cost: ScryptCost = scryptCost): Secrets {
  const inTurn = createTurns();

  const kept = (person: string, kind: SecretKind): Row | undefined =>
    book.get<Row>('SELECT hash, failures, paused_until FROM secrets WHERE person = ? AND kind = ?', person, kind);

  const withdrawn = (person: string, kind: SecretKind): void =>
    book.count((database) => database.run('DELETE FROM secrets WHERE person = ? AND kind = ?', person, kind));

  const isPaused = ({ paused_until: until }: Row): boolean =>
    // A pause longer than any is left over from a clock that was wrong.
    until > book.now() && until - book.now() <= limits.signOnPauseMilliseconds;

  const countTry = (person: string, kind: SecretKind, { failures }: Row): void => {
    const pause = (failures + 1) % limits.signOnTriesBeforePause === 0;
    book.count((database) =>
      database.run(
        'UPDATE secrets SET failures = failures + 1, paused_until = ? WHERE person = ? AND kind = ?',
        pause ? book.now() + limits.signOnPauseMilliseconds : 0,
        person,
        kind,
      ),
    );
  };

  return {
    async set(person, kind, secret, by) {
      const weakness =
        kind === 'PIN' ? pinWeakness(secret) : kind === 'password' ? passwordWeakness(secret, person.name) : undefined;
      if (weakness !== undefined) throw refusal(kind, `this ${kind}`, weakness);
      const hash = kind === 'badge' ? tokenHash(secret) : ((await inTurn(() => hashOf(secret, cost))) ?? refusedBusy());
      book.change(by, `set the ${kind} of ${person.name}`, (database) =>
        database.run(
          'INSERT INTO secrets (person, kind, hash, set_at, failures, paused_until) VALUES (?, ?, ?, ?, 0, 0) ' +
            'ON CONFLICT (person, kind) DO UPDATE SET hash = excluded.hash, set_at = excluded.set_at, failures = 0, paused_until = 0',
          person.id,
          kind,
          hash,
          book.now(),
        ),
      );
    },
    withdraw(person, kind, by) {
      book.change(by, `withdrew the ${kind} of ${person.name}`, (database) =>
        database.run('DELETE FROM secrets WHERE person = ? AND kind = ?', person.id, kind),
      );
    },
    async check(person, kind, secret) {
      const row = person?.active === true ? kept(person.id, kind) : undefined;
      if (row !== undefined && isPaused(row)) return 'paused';
      if (row !== undefined && person !== undefined) countTry(person.id, kind, row);
      const right =
        kind === 'badge'
          ? row !== undefined && isToken(secret, row.hash)
          : await inTurn(() => matches(secret, row?.hash, cost));
      if (right === undefined) return 'busy';
      if (row === undefined || person === undefined) return 'wrong';
      if (right) {
        book.count((database) =>
          database.run(
            'UPDATE secrets SET failures = 0, paused_until = 0 WHERE person = ? AND kind = ? AND hash = ?',
            person.id,
            kind,
            row.hash,
          ),
        );
        return 'right';
      }
      const { failures = 0 } = kept(person.id, kind) ?? {};
      if (kind === 'password' || failures < limits.shortSignOnTriesMaximum) return 'wrong';
      withdrawn(person.id, kind);
      return 'withdrawn';
    },
    kinds: (person) =>
      book
        .all<{ kind: SecretKind }>('SELECT kind FROM secrets WHERE person = ? ORDER BY kind', person)
        .map(({ kind }) => kind),
  };
}

const refusedBusy = (): never => {
  throw refusal('(whole)', 'many at once', 'to be tried again in some seconds');
};

/** A few at a time, since each takes memory and time; a bounded number waits, and what is beyond gets undefined. */
function createTurns() {
  let running = 0;
  const waiting: (() => void)[] = [];
  return async <T>(work: () => Promise<T>): Promise<T | undefined> => {
    if (running >= limits.secretsCheckedAtOnce) {
      if (waiting.length >= limits.secretsWaitingMaximum) return undefined;
      await new Promise<void>((resolve) => waiting.push(resolve));
    } else running += 1;
    try {
      return await work();
    } finally {
      const next = waiting.shift();
      if (next === undefined) running -= 1;
      else next();
    }
  };
}
