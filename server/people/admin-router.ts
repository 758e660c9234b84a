/**
 * What the administrator does about people, over HTTP. Asked for is the role and a sign-on by password: a PIN that
 * somebody looked at over a shoulder must not make people.
 */
import express, { type NextFunction, type Request, type Response, type Router } from 'express';
import type { Signer } from '../desk/actor.ts';
import { qualificationSchema } from '../weld/qualification.ts';
import type { NewSecret, PeopleView, PersonView } from '../weld/sign-on.ts';
import { badgeSvg } from './badge.ts';
import { eventsOf } from './book.ts';
import { addPerson, changePerson, everybody, type PersonKept, personById } from './people.ts';
import { keepQualification, qualificationsOf, withdrawQualification } from './qualifications.ts';
import { badgeText, personChangeSchema, personSentSchema, screenSentSchema } from './requests.ts';
import { answered, readBody } from './router.ts';
import { revokeScreen, screenOf, trustedScreens, trustScreen } from './screens.ts';
import { newPassword, newPin, type SecretKind, token } from './secret.ts';
import type { SignOn } from './sign-on.ts';

const bodyMaximum = 20_000;
const eventsShown = 200;

export function adminRouter({ book, secrets, sessions, cookies, signer }: SignOn): Router {
  const router = express.Router();
  const json = express.json({ limit: bodyMaximum });

  router.use(['/people', '/screens'], (request: Request, response: Response, next: NextFunction) => {
    const against = againstAdministering(signer(request));
    if (against === undefined) next();
    else response.status(against.status).json({ because: against.because });
  });
  /** Whoever is let in by the check above. */
  const by = (request: Request): string => signer(request)?.name ?? '';

  const personView = (person: PersonKept): PersonView => ({
    ...person,
    has: secrets.kinds(person.id),
    qualifications: qualificationsOf(book, person.id),
  });

  router.get('/people', (request, response) => {
    const screen = screenOf(book, cookies.read(request, 'screen'));
    const view: PeopleView = {
      people: everybody(book).map(personView),
      screens: trustedScreens(book),
      ...(screen === undefined ? {} : { screen: screen.name }),
      events: eventsOf(book, eventsShown),
    };
    response.json(view);
  });

  router.post('/people', json, (request, response) => {
    const sent = readBody(personSentSchema, request, response);
    return sent === undefined ? undefined : answered(response, () => personView(addPerson(book, sent, by(request))));
  });

  router.put('/people/:id', json, (request, response) => {
    const sent = readBody(personChangeSchema, request, response);
    if (sent === undefined) return undefined;
    return answered(response, () => {
      const changed = changePerson(book, request.params.id as string, sent, by(request));
      if (!changed.active) signOff(changed.id);
      return personView(changed);
    });
  });

  router.use('/people/:id', (request, response, next) => {
    if (personById(book, request.params.id) !== undefined) next();
    else response.status(404).json({ because: 'this station has no such person' });
  });
  const personIn = (request: Request): PersonKept => personById(book, request.params.id as string)!;
  const signOff = (person: string): void => sessions.endWhere((session) => session.person === person);

  for (const [path, kind] of Object.entries(secretPaths)) {
    router.post(`/people/:id/${path}`, (request, response) =>
      answered(response, async (): Promise<NewSecret> => {
        const person = personIn(request);
        const secret = newSecret(kind);
        await secrets.set(person, kind, secret, by(request));
        if (signer(request)?.id !== person.id) signOff(person.id);
        if (kind !== 'badge') return { kind, text: secret };
        const text = badgeText(person.id, secret);
        return { kind, text, svg: badgeSvg(text) };
      }),
    );
    router.delete(`/people/:id/${path}`, (request, response) =>
      answered(response, () => {
        const person = personIn(request);
        // What the administrator signs on with is changed, not taken away.
        if (kind === 'password' && signer(request)?.id === person.id) return {};
        secrets.withdraw(person, kind, by(request));
        sessions.endWhere((session) => session.person === person.id && session.proof === kind);
        return {};
      }),
    );
  }

  router.post('/people/:id/qualifications', json, (request, response) => {
    const sent = readBody(qualificationSchema, request, response);
    if (sent === undefined) return undefined;
    return answered(response, () => keepQualification(book, personIn(request), undefined, sent, by(request)));
  });
  router.put('/people/:id/qualifications/:one', json, (request, response) => {
    const sent = readBody(qualificationSchema, request, response);
    if (sent === undefined) return undefined;
    const one = request.params.one as string;
    return answered(response, () => keepQualification(book, personIn(request), one, sent, by(request)));
  });
  router.delete('/people/:id/qualifications/:one', (request, response) =>
    answered(response, () => withdrawQualification(book, personIn(request), request.params.one, by(request))),
  );

  router.post('/screens', json, (request, response) => {
    const sent = readBody(screenSentSchema, request, response);
    if (sent === undefined) return undefined;
    return answered(response, () => {
      cookies.write(request, response, 'screen', trustScreen(book, sent.name, by(request)));
      return {};
    });
  });
  router.delete('/screens/:id', (request, response) =>
    answered(response, () => {
      revokeScreen(book, request.params.id, by(request));
      sessions.endWhere(({ screen }) => screen === request.params.id);
      return {};
    }),
  );

  return router;
}

const secretPaths: Readonly<Record<string, SecretKind>> = { password: 'password', pin: 'PIN', badge: 'badge' };

const newSecret = (kind: SecretKind): string =>
  kind === 'PIN' ? newPin() : kind === 'password' ? newPassword() : token();

function againstAdministering(signer: Signer | undefined): { status: number; because: string } | undefined {
  if (signer === undefined) return { status: 401, because: 'sign on as administrator first, with your password' };
  if (!signer.roles.includes('administrator')) return { status: 403, because: 'for an administrator only' };
  return signer.proof === 'password'
    ? undefined
    : { status: 403, because: 'sign on with your password for this; a PIN or a badge is not enough' };
}
