/** The three jobs of the emulated shift: one that goes well, one with a break, one that fails. */
import { people } from './crew.ts';
import { type Course, type Hands, type Job, minutes } from './job.ts';
import {
  answerChecks,
  checkProbes,
  closed,
  decideAll,
  examineSpots,
  heat,
  type Run,
  readBesideZone,
  testAfterTheWait,
  weld,
} from './steps.ts';

export const shiftJobs: readonly Job[] = [
  { file: 'node-7.json', procedures: [{ file: 'wps-50-2-revision-2.json' }], course: goesWell },
  {
    file: 'post-12.json',
    procedures: [
      { file: 'wps-40-1-revision-1.json' },
      { file: 'wps-40-1-revision-2.json', reason: 'an examination after a cold break, as audits ask for' },
    ],
    course: hasABreak,
  },
  { file: 'body-3.json', procedures: [{ file: 'wps-60-4-revision-1.json' }], course: fails },
];

const { welder, otherWelder, heater, nextHeater, inspector, coordinator, thirdParty } = people;

const fiveRuns: readonly Run[] = [
  { pass: '1', passKind: 'root', side: 'A', amperes: 240 },
  { pass: '2', passKind: 'fill', side: 'A', amperes: 260 },
  { pass: '3', passKind: 'fill', side: 'B', amperes: 265, stops: '310 mm, taken up again after grinding' },
  { pass: '4', passKind: 'fill', side: 'A', amperes: 260 },
  { pass: '5', passKind: 'cap', side: 'A', amperes: 255 },
];

function* goesWell(hands: Hands): Course {
  const { act, joint, board } = hands;
  yield* checkProbes(hands);
  answerChecks(hands, {
    preparation: [inspector, 'root gap 3 mm, offset below 1 mm'],
    material: [inspector, 'H-4410 and H-4411 read on the plates'],
    clean: [welder, 'blasted, dry to the hand, no condensation'],
    consumables: [welder, 'batch L-7731 from the cabinet, opened today'],
    equipment: [welder],
    heating: [heater, 'pads 300 mm to each side, back covered'],
    measuring: [heater],
    welder: [coordinator, 'WQ-118, PA, from 3 mm'],
  });
  yield* heat(hands);
  act(inspector, { kind: 'point released', point: 'H1' });
  act(welder, readBesideZone(hands));
  yield ({ ready }) => ready;
  for (const run of fiveRuns) {
    yield* weld(hands, welder, run);
    yield minutes(4);
    yield ({ ready }) => ready;
  }
  act(welder, { kind: 'welding complete' });
  board.heater({ on: true, setPointCelsius: joint().postHeating!.celsius + 15 });
  act(thirdParty, { kind: 'point released', point: 'W1', note: 'attended' });
  act(heater, { kind: 'post-heating', state: 'begun' });
  yield ({ after }) => after?.postHeating?.state === 'done';
  act(heater, { kind: 'post-heating', state: 'ended' });
  act(heater, { kind: 'cover', state: 'on' });
  act(heater, { kind: 'heat', state: 'off' });
  hands.handOver(heater, nextHeater, 'Cooling under cover; leave the covers on to 100 °C.');
  const covered = 1000 * joint().procedure!.coveredToCelsius!;
  yield ({ probes }) => probes.every(({ temperature }) => temperature === undefined || temperature < covered - 5000);
  act(nextHeater, { kind: 'cover', state: 'off' });
  yield* testAfterTheWait(hands);
  examineSpots(hands);
  act(inspector, { kind: 'point released', point: 'H2' });
  yield* closed(hands, 'All passes within the window; tested after the wait.');
}

function* hasABreak(hands: Hands): Course {
  const { act, joint } = hands;
  yield minutes(1);
  hands.changeOver(coordinator, 'revision 2 holds since this morning');
  answerChecks(hands, {
    material: [inspector, 'H-4420 and H-4421 read on the plates'],
    clean: [otherWelder],
    consumables: [otherWelder, 'batch L-7731 from the cabinet, opened today'],
    measuring: [heater],
    welder: [coordinator, 'WQ-121 shown; its confirmation is late and is asked for'],
  });
  yield* heat(hands);
  act(inspector, { kind: 'point released', point: 'H1' });
  yield ({ ready }) => ready;
  for (const run of [
    { pass: '1', passKind: 'root', amperes: 240 },
    { pass: '2', passKind: 'fill', amperes: 260 },
  ] as const) {
    yield* weld(hands, otherWelder, run);
    yield minutes(4);
  }
  act(otherWelder, { kind: 'break', state: 'begun', reason: 'mains to the heaters failed' });
  act(heater, { kind: 'heat', state: 'off' });
  const kept = 1000 * joint().procedure!.maintenanceMinimumCelsius!;
  yield ({ probes }) =>
    probes.some(({ use, temperature }) => use === 'zone' && temperature !== undefined && temperature < kept - 8000);
  act(heater, { kind: 'heat', state: 'on' });
  yield minutes(10);
  act(inspector, { kind: 'break inspected', method: 'MT', result: 'no indication' });
  act(otherWelder, { kind: 'break', state: 'ended' });
  yield ({ ready }) => ready;
  yield* weld(hands, otherWelder, { pass: '3', passKind: 'cap', amperes: 255 });
  yield minutes(2);
  act(otherWelder, { kind: 'welding complete' });
  act(heater, { kind: 'heat', state: 'off' });
  yield* testAfterTheWait(hands);
  examineSpots(hands);
  decideAll(hands, 'accept', 'heated and soaked again, examined without indication before welding went on');
  yield* closed(hands, 'One break below the maintenance temperature, dealt with as the procedure asks.');
}

function* fails(hands: Hands): Course {
  const { act } = hands;
  yield minutes(1);
  answerChecks(hands, {
    material: [inspector, 'H-4430 and H-4431 read on the parts'],
    clean: [welder],
    welder: [coordinator, 'WQ-118'],
  });
  yield* heat(hands);
  // Impatience: the face is warm to the hand, and nobody looks at the far side.
  yield ({ probes }) =>
    probes.some(({ use, temperature }) => use === 'zone' && temperature !== undefined && temperature > 140_000);
  yield* weld(hands, welder, { pass: '1', passKind: 'root', amperes: 240 });
  yield minutes(1);
  yield* weld(hands, welder, { pass: '2', passKind: 'fill', amperes: 260 });
  yield ({ ready }) => ready;
  yield* weld(hands, welder, { pass: '3', passKind: 'cap', amperes: 255 });
  yield minutes(2);
  act(welder, { kind: 'welding complete' });
  act(heater, { kind: 'heat', state: 'off' });
  yield minutes(30);
  act(inspector, { kind: 'note', text: 'Passes 1 and 2 were begun below the minimum. The joint is cut out.' });
  decideAll(hands, 'reject', 'begun below the minimum on hardenable steel; cut out and welded anew');
  yield* closed(hands, 'Rejected: begun below the minimum.');
}
