/** What several jobs of the shift do alike: checks, heat, a pass, the wait, spots, decisions, closing. */
import { needsAnswer } from '../../judgement/people/deviations.ts';
import type { CheckAct } from '../../weld/checks.ts';
import type { Act } from '../../weld/entry.ts';
import type { PassDetails, PassKind } from '../../weld/pass-acts.ts';
import type { Person } from '../../weld/person.ts';
import { createRound, readOf } from '../demonstration-round.ts';
import { people } from './crew.ts';
import { type Course, type Hands, minutes } from './job.ts';

const { heater, inspector, coordinator } = people;

/** Each tip in turn is held in a hand, while all is cold. */
export function* checkProbes({ joint, board, act, now, judged }: Hands): Course {
  const round = createRound(joint(), board);
  let check: Act | undefined;
  yield ({ probes }) => probes.every(({ fresh }) => fresh);
  yield () => {
    check = round.advance(now(), readOf(judged()));
    return check !== undefined;
  };
  act(heater, check!);
}

/** Who answers which check, and what is noted with it. */
export type Answers = Readonly<Record<string, readonly [who: Person, note?: string, answer?: 'not in order']>>;

export function answerChecks({ act }: Hands, answers: Answers): void {
  for (const [check, [who, note, answer = 'in order']] of Object.entries(answers)) {
    const answered: CheckAct = { kind: 'check answered', check, answer, ...(note === undefined ? {} : { note }) };
    act(who, answered);
  }
}

export function* heat({ act }: Hands): Course {
  yield minutes(2);
  act(heater, { kind: 'heat', state: 'on' });
}

export interface Run extends PassDetails {
  readonly pass: string;
  readonly passKind: PassKind;
  readonly amperes: number;
  /** Of the arc, that of the run included. */
  readonly minutes?: number;
}

const wire = 'solid wire 1.2 mm, batch L-7731';

export function* weld({ act }: Hands, welder: Person, run: Run): Course {
  const { pass, passKind, amperes, minutes: burning = 3, stops, ...setUp } = run;
  act(welder, { kind: 'pass start', pass, passKind, welder: welder.name, layer: pass, batch: wire, ...setUp });
  yield minutes(burning);
  const numbers = { volts: 27, amperes, millimetresPerSecond: 3.7 };
  act(welder, { kind: 'pass end', pass, ...numbers, ...(stops === undefined ? {} : { stops }) });
  yield minutes(1);
}

export function* testAfterTheWait({ act }: Hands): Course {
  yield ({ after }) => after?.wait.state === 'over';
  act(inspector, { kind: 'testing begun', method: 'UT' });
  yield minutes(1);
}

/** Ground flush and examined, wherever a probe was welded on. */
export function examineSpots({ joint, act }: Hands): void {
  for (const { id, attachedBy } of joint().probes)
    if (attachedBy !== undefined)
      act(inspector, { kind: 'spot examined', probe: id, method: 'MT', result: 'no indication' });
}

/** What stands open and asks for a decision. */
export function decideAll({ act, judged }: Hands, decision: 'accept' | 'reject', reason: string): void {
  for (const finding of judged().findings)
    if (needsAnswer(finding)) {
      const { key, value } = finding;
      const seen = value === undefined ? {} : { value };
      act(inspector, { kind: 'disposition', finding: key, decision, ...seen, reason });
    }
}

/** The contact thermometer shows what the steel has there, to the nearest degree. */
export function readBesideZone({ joint, board }: Hands): Act {
  const { probes, instruments } = joint();
  const { id, channel, place } = probes.find(({ use }) => use === 'zone')!;
  const instrument = instruments!.find(({ kind }) => kind === 'contact thermometer')!;
  const celsius = Math.round(board.celsius(channel));
  return { kind: 'contact reading', celsius, instrument: instrument.id, probe: id, use: 'zone', place: place! };
}

export function* closed({ act }: Hands, statement: string): Course {
  yield minutes(1);
  act(coordinator, { kind: 'close', statement });
  yield ({ phase }) => phase === 'closed';
}
