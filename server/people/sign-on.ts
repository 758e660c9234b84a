/**
 * Signing on and off. By PIN or badge on a trusted screen, by name and password anywhere. The answer to a try is the
 * same for a name that nobody has, and a secret is neither logged nor repeated in an answer.
 */
import type { Request, Response } from 'express';
import type { Actor, Signer } from '../desk/actor.ts';
import type { Qualification } from '../weld/qualification.ts';
import type { SignOnView } from '../weld/sign-on.ts';
import { type Book, openBook } from './book.ts';
import { type Cookies, cookiesOf } from './cookies.ts';
import { createCounterSigns } from './counter-signs.ts';
import { anybody, everybody, type PersonKept, personById, personByName } from './people.ts';
import { qualificationsOf } from './qualifications.ts';
import type { SignOnRequest } from './requests.ts';
import { screenOf } from './screens.ts';
import type { ScryptCost, SecretKind } from './secret.ts';
import { type Checked, createSecrets, type Secrets } from './secrets-kept.ts';
import { createSessions, type Sessions } from './sessions.ts';

export interface SignOnOptions {
  readonly file: string;
  /** Wall clock and the one that never steps, milliseconds. */
  readonly now: () => number;
  readonly monotonic: () => number;
  readonly cost?: ScryptCost;
}

export interface SignOn {
  readonly book: Book;
  readonly secrets: Secrets;
  readonly sessions: Sessions;
  readonly cookies: Cookies;
  actor(request: Request): Actor;
  /** Who is signed on, if anybody is. */
  signer(request: Request): Signer | undefined;
  view(request: Request): SignOnView;
  /** Whose secret it is, if it is right. */
  prove(request: Request, asked: SignOnRequest): Promise<Proved>;
  /** The second signature that the request carries. */
  counterSigner(request: Request): Signer | undefined;
  /** Lets somebody sign beside who is signed on; undefined where nobody is. */
  counterSign(request: Request, proved: Proved & { person: PersonKept }): string | undefined;
  /** Of a welder by name, as they stand now; undefined while the station knows nobody. */
  readonly qualificationsOf: (welder: string) => readonly Qualification[] | undefined;
  begin(request: Request, response: Response, proved: Proved & { person: PersonKept }): void;
}

export type Proved =
  | { readonly person: PersonKept; readonly proof: SecretKind }
  | { readonly person?: undefined; readonly because: string };

export function createSignOn({ file, now, monotonic, cost }: SignOnOptions): SignOn {
  const book = openBook({ file, now });
  const secrets = createSecrets(book, cost);
  const sessions = createSessions(monotonic);
  const cookies = cookiesOf(file);
  const counterSigns = createCounterSigns(monotonic);

  const screen = (request: Request) => screenOf(book, cookies.read(request, 'screen'));

  const signer = (request: Request): Signer | undefined => {
    const session = sessions.of(cookies.read(request, 'session'));
    const person = session === undefined ? undefined : personById(book, session.person);
    // Asked of the file each time: who was switched off, or has another part now, is it from this request on.
    if (session === undefined || person === undefined || !person.active) return undefined;
    return { id: person.id, name: person.name, roles: person.roles, proof: session.proof };
  };

  return {
    book,
    secrets,
    sessions,
    cookies,
    signer,
    actor: (request) => (anybody(book) ? (signer(request) ?? 'nobody') : 'as named'),
    view(request) {
      const needed = anybody(book);
      const trusted = screen(request);
      const who = signer(request);
      const endsInMilliseconds = sessions.left(cookies.read(request, 'session'));
      const withPin = trusted === undefined ? [] : everybody(book).filter((each) => each.active && hasPin(each.id));
      return {
        needed,
        ...(trusted === undefined ? {} : { screen: trusted.name }),
        byPin: withPin.map(({ id, name }) => ({ id, name })),
        ...(who === undefined || who.proof === 'typed name'
          ? {}
          : { who: { ...who, proof: who.proof, endsInMilliseconds } }),
      };
    },
    async prove(request, asked) {
      const kind = asked.by;
      if (kind !== 'password' && screen(request) === undefined) return { because: notTrusted };
      const person = asked.by === 'password' ? personByName(book, asked.name) : personById(book, asked.person);
      const checked = await secrets.check(person, kind, asked.secret);
      return checked === 'right' && person !== undefined
        ? { person, proof: kind }
        : { because: wrongText(checked, kind) };
    },
    qualificationsOf(welder) {
      if (!anybody(book)) return undefined;
      const person = personByName(book, welder);
      return person === undefined ? [] : qualificationsOf(book, person.id).map(({ id: _, ...each }) => each);
    },
    counterSigner: (request) => counterSigns.of(cookies.read(request, 'session'), request.get('counter-sign')),
    counterSign(request, { person, proof }) {
      const session = cookies.read(request, 'session');
      if (session === undefined || signer(request) === undefined) return undefined;
      return counterSigns.give(session, { id: person.id, name: person.name, roles: person.roles, proof });
    },
    begin(request, response, { person, proof }) {
      sessions.end(cookies.read(request, 'session'));
      const trusted = screen(request);
      const value = sessions.begin({
        person: person.id,
        proof,
        ...(trusted === undefined || proof === 'password' ? {} : { screen: trusted.id }),
      });
      cookies.write(request, response, 'session', value);
    },
  };

  function hasPin(person: string): boolean {
    return secrets.kinds(person).includes('PIN');
  }
}

const notTrusted =
  'a PIN or a badge is taken on a trusted screen only; sign on with name and password, or have an administrator trust this screen';

const wrongText = (checked: Checked, kind: SecretKind): string => {
  switch (checked) {
    case 'paused':
      return 'wrong too often; wait five minutes, then try again';
    case 'withdrawn':
      return `wrong too often in a row: this ${kind} is withdrawn; an administrator gives a new one`;
    case 'busy':
      return 'many sign on at this moment; try again in some seconds';
    case 'wrong':
    case 'right':
      return kind === 'password' ? 'name and password do not go together' : `this ${kind} is not right`;
  }
};
