/** The three jobs of the emulated shift: one that goes well, one with a break, one that fails. */
import { needsAnswer } from '../../judgement/people/deviations.ts';
import type { Act } from '../../weld/entry.ts';
import { createRound, readOf } from '../demonstration-round.ts';
import { type Course, type Hands, type Job, minutes, people } from './job.ts';

export const shiftJobs: readonly Job[] = [
  { file: 'node-7.json', course: goesWell },
  { file: 'post-12.json', course: hasABreak },
  { file: 'body-3.json', course: fails },
];

const { welder, heater, inspector, coordinator } = people;
const numbers = { volts: 27, amperes: 260, millimetresPerSecond: 3.7 } as const;
const batch = 'solid wire 1.2 mm, batch L-7731';

function* goesWell(hands: Hands): Course {
  yield* checkProbes(hands);
  yield* heat(hands);
  hands.act(welder, readBesideZone(hands));
  yield ({ ready }) => ready;
  for (const [pass, kind] of passes(5)) {
    yield* weld(hands, pass, kind);
    yield minutes(4);
    yield ({ ready }) => ready;
  }
  hands.act(welder, { kind: 'welding complete' });
  const { postHeating } = hands.joint;
  hands.board.heater({ on: true, setPointCelsius: postHeating!.celsius + 15 });
  hands.act(heater, { kind: 'post-heating', state: 'begun' });
  yield ({ after }) => after?.postHeating?.state === 'done';
  hands.act(heater, { kind: 'post-heating', state: 'ended' });
  hands.act(heater, { kind: 'cover', state: 'on' });
  hands.act(heater, { kind: 'heat', state: 'off' });
  const covered = 1000 * hands.joint.procedure!.coveredToCelsius!;
  yield ({ probes }) => probes.every(({ temperature }) => temperature === undefined || temperature < covered - 5000);
  hands.act(heater, { kind: 'cover', state: 'off' });
  yield* afterTheWait(hands);
  for (const { id, attachedBy } of hands.joint.probes)
    if (attachedBy !== undefined)
      hands.act(inspector, { kind: 'spot examined', probe: id, method: 'MT', result: 'no indication' });
  yield* closed(hands, 'All passes within the window; tested after the wait.');
}

function* hasABreak(hands: Hands): Course {
  yield* heat(hands);
  yield ({ ready }) => ready;
  for (const [pass, kind] of passes(2)) {
    yield* weld(hands, pass, kind);
    yield minutes(4);
  }
  hands.act(welder, { kind: 'break', state: 'begun', reason: 'mains to the heaters failed' });
  hands.act(heater, { kind: 'heat', state: 'off' });
  const kept = 1000 * hands.joint.procedure!.maintenanceMinimumCelsius!;
  yield ({ probes }) =>
    probes.some(({ use, temperature }) => use === 'zone' && temperature !== undefined && temperature < kept - 8000);
  hands.act(heater, { kind: 'heat', state: 'on' });
  yield minutes(10);
  hands.act(inspector, { kind: 'break inspected', method: 'MT', result: 'no indication' });
  hands.act(welder, { kind: 'break', state: 'ended' });
  yield ({ ready }) => ready;
  yield* weld(hands, '3', 'cap');
  yield minutes(2);
  hands.act(welder, { kind: 'welding complete' });
  hands.act(heater, { kind: 'heat', state: 'off' });
  yield* afterTheWait(hands);
  decideAll(hands, 'accept', 'heated and soaked again, examined without indication before welding went on');
  yield* closed(hands, 'One break below the maintenance temperature, dealt with as the procedure asks.');
}

function* fails(hands: Hands): Course {
  yield* heat(hands);
  // Impatience: the face is warm to the hand, and nobody looks at the far side.
  yield ({ probes }) =>
    probes.some(({ use, temperature }) => use === 'zone' && temperature !== undefined && temperature > 140_000);
  yield* weld(hands, '1', 'root');
  yield minutes(1);
  yield* weld(hands, '2', 'fill');
  yield ({ ready }) => ready;
  yield* weld(hands, '3', 'cap');
  yield minutes(2);
  hands.act(welder, { kind: 'welding complete' });
  hands.act(heater, { kind: 'heat', state: 'off' });
  yield minutes(30);
  hands.act(inspector, { kind: 'note', text: 'Passes 1 and 2 were begun below the minimum. The joint is cut out.' });
  decideAll(hands, 'reject', 'begun below the minimum on hardenable steel; cut out and welded anew');
  yield* closed(hands, 'Rejected: begun below the minimum.');
}

/** Each tip in turn is held in a hand, while all is cold. */
function* checkProbes({ joint, board, act, now, judged }: Hands): Course {
  const round = createRound(joint, board);
  let check: Act | undefined;
  yield ({ probes }) => probes.every(({ fresh }) => fresh);
  yield () => {
    check = round.advance(now(), readOf(judged()));
    return check !== undefined;
  };
  act(heater, check!);
}

function* heat({ act }: Hands): Course {
  yield minutes(2);
  act(heater, { kind: 'heat', state: 'on' });
}

function* weld({ act }: Hands, pass: string, passKind: 'root' | 'fill' | 'cap'): Course {
  act(welder, { kind: 'pass start', pass, passKind, welder: welder.name, layer: pass, batch });
  yield minutes(3);
  act(welder, { kind: 'pass end', pass, ...numbers });
  yield minutes(1);
}

function* afterTheWait({ act }: Hands): Course {
  yield ({ after }) => after?.wait.state === 'over';
  act(inspector, { kind: 'testing begun', method: 'UT' });
  yield minutes(1);
}

function* closed({ act }: Hands, statement: string): Course {
  yield minutes(1);
  act(coordinator, { kind: 'close', statement });
  yield ({ phase }) => phase === 'closed';
}

/** What stands open and asks for a decision. */
function decideAll({ act, judged }: Hands, decision: 'accept' | 'reject', reason: string): void {
  for (const finding of judged().findings)
    if (needsAnswer(finding)) {
      const { key, value } = finding;
      const seen = value === undefined ? {} : { value };
      act(inspector, { kind: 'disposition', finding: key, decision, ...seen, reason });
    }
}

const passes = (count: number) =>
  Array.from({ length: count }, (_, index) => {
    const kind = index === 0 ? 'root' : index === count - 1 ? 'cap' : 'fill';
    return [`${index + 1}`, kind] as const;
  });

/** The contact thermometer shows what the steel has there, to the nearest degree. */
function readBesideZone({ joint, board }: Hands): Act {
  const { id, channel, place } = joint.probes.find(({ use }) => use === 'zone')!;
  const instrument = joint.instruments!.find(({ kind }) => kind === 'contact thermometer')!;
  const celsius = Math.round(board.celsius(channel));
  return { kind: 'contact reading', celsius, instrument: instrument.id, probe: id, use: 'zone', place: place! };
}
