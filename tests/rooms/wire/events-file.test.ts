import { describe, expect, it } from 'vitest';
import { limits } from '../../../server/measure/limits.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { eventColumns, eventKinds } from '../../../server/wire/event-act.ts';
import { eventsFileHelp, readEvents } from '../../../server/wire/events-file.ts';
import { elapsedEpoch } from '../../../server/wire/log-time.ts';
import { plainJoint } from '../../support/plain-joint.ts';

const header = 'time,kind,place,who,role,pass,pass kind,welder,celsius,instrument,use,subject,method,text';
const file = (...rows: readonly string[]): string => `${[header, ...rows].join('\n')}\n`;
const problem = (...rows: readonly string[]): string =>
  readEvents(file(...rows))
    .problems.map(({ line, column, message }) => `${line}/${column ?? ''}: ${message}`)
    .join('\n');

describe('an events file', () => {
  it('becomes acts with their time and their person', () => {
    const read = readEvents(
      file(
        '0,heat on,,K. Heater,heater operator',
        '0:10:00,Heat Off,,K. Heater',
        '700,pass start,"A, north end",W. Welder,welder,1,root',
        '800,contact reading,plate-1/a/front/10 mm,I. Inspector,inspector,,,,"213,5",contact thermometer 3',
        '900,pass end,A,W. Welder',
        '950,note,,I. Inspector,,,,,,,,,,"wet, then dried"',
        '960,accept,,C. Coordinator,coordinator,,,,,,,extended range,EN 1011-2 B,agreed with the designer',
        '990,close,,I. Inspector',
      ),
    );
    expect(read.problems).toEqual([]);
    expect(read.acts).toEqual([
      { type: 'act', at: elapsedEpoch, who: 'K. Heater', role: 'heater operator', act: { kind: 'heat', state: 'on' } },
      { type: 'act', at: elapsedEpoch + 600_000, who: 'K. Heater', act: { kind: 'heat', state: 'off' } },
      {
        type: 'act',
        at: elapsedEpoch + 700_000,
        who: 'W. Welder',
        role: 'welder',
        act: {
          kind: 'pass start',
          pass: '1',
          passKind: 'root',
          welder: 'W. Welder',
          side: 'A',
          where: 'north end',
        },
      },
      {
        type: 'act',
        at: elapsedEpoch + 800_000,
        who: 'I. Inspector',
        role: 'inspector',
        act: {
          kind: 'contact reading',
          celsius: 213.5,
          instrument: 'contact thermometer 3',
          use: 'interpass',
          place: { part: 'plate-1', side: 'A', face: 'front', distanceMillimetres: 10 },
        },
      },
      { type: 'act', at: elapsedEpoch + 900_000, who: 'W. Welder', act: { kind: 'pass end', pass: '1' } },
      { type: 'act', at: elapsedEpoch + 950_000, who: 'I. Inspector', act: { kind: 'note', text: 'wet, then dried' } },
      {
        type: 'act',
        at: elapsedEpoch + 960_000,
        who: 'C. Coordinator',
        role: 'coordinator',
        act: { kind: 'accept', subject: 'extended range', method: 'EN 1011-2 B', reason: 'agreed with the designer' },
      },
      { type: 'act', at: elapsedEpoch + 990_000, who: 'I. Inspector', act: { kind: 'close' } },
    ]);
  });

  it('may have only the four columns, in any order, and semicolons', () => {
    const read = readEvents('who;place;kind;time\nK. Heater;;heat on;10\n', { start: 1_795_000_000_000 as Instant });
    expect(read).toEqual({
      problems: [],
      acts: [{ type: 'act', at: 1_795_000_010_000, who: 'K. Heater', act: { kind: 'heat', state: 'on' } }],
    });
  });

  it('is put in order of time, and a pass may end on an earlier line than it begins', () => {
    const read = readEvents(file('20,pass end,,W,,1', '10,pass start,B,W,,1,fill', '10,heat off,,K'));
    expect(read.problems).toEqual([]);
    expect(read.acts.map(({ act }) => act.kind)).toEqual(['pass start', 'heat', 'pass end']);
  });

  it('does not ask for the pass that ends while only one runs, and may run several', () => {
    const started = ['10,pass start,A,W,,1,fill', '11,pass start,B,V,,2,fill'];
    expect(problem(...started, '20,pass end,,W')).toBe('4/pass: name the pass that ends: passes 1, 2 are running');
    expect(problem(...started, '20,pass end,,W,,2', '21,pass end,,W')).toBe('');
  });
});

describe('a line that fails says where and what is allowed', () => {
  it.each([
    ['10,heating,,K', /^2\/kind: "heating" is not a kind of event; allowed are heat on, heat off/],
    ['10,heat on,', /^2\/who: found empty text; allowed is text of 1 to 120 characters/],
    ['10,heat on,,K,boss', /^2\/role: found the text "boss"; allowed is one of "welder"/],
    ['noon,heat on,,K', /^2\/time: "noon" is not a time/],
    ['2026-11-25 10:00:00,heat on,,K', /^2\/time: .*state the offset/],
    ['10,heat on,,K,,1', /^2\/pass: "heat on" has no use for pass "1"; leave it empty/],
    ['10,pass start,A,W,,,root', /^2\/pass: a pass start needs the name of the pass/],
    ['10,pass start,A,W,,1', /^2\/pass kind: a pass start needs its pass kind/],
    ['10,pass start,A,W,,1,middle', /^2\/pass kind: found the text "middle"; allowed is one of "tack"/],
    ['10,pass end,A,W,,7', /^2\/pass: pass 7 is not running/],
    ['10,pass end,A,W', /^2\/pass: name the pass that ends: no pass is running/],
    ['10,contact reading,p/A/front/10,I,,,,,warm,x', /^2\/celsius: "warm" is not a temperature/],
    [
      '10,contact reading,p/A/front/10,I,,,,,2000,x',
      /^2\/celsius: found the number 2000; allowed is a number from -60 to 1400/,
    ],
    ['10,contact reading,p/A/front/10,I,,,,,200', /^2\/instrument: a contact reading needs its instrument/],
    ['10,contact reading,by the weld,I,,,,,200,x', /^2\/place: "by the weld" is not a place; write part\/side/],
    ['10,contact reading,p/C/front/10,I,,,,,200,x', /^2\/place: /],
    ['10,contact reading,p/A/front/10,I,,,,,200,x,ambient', /^2\/use: /],
    ['10,note,,I', /^2\/text: found empty text/],
    ['10,accept,,C', /^2\/subject: say what is accepted/],
    ['10,accept,,C,,,,,,,,extended range', /^2\/text: found empty text/],
    ['10,note,,I,,,,,,,,,,wet, then dried', /^2\/: this line has 15 fields and the header 14; put words/],
  ])('%s', (row, expected) => {
    expect(problem(row)).toMatch(expected);
  });

  it('does not stop the lines after it', () => {
    const read = readEvents(file('10,heating,,K', '20,heat on,,K'));
    expect(read.problems).toHaveLength(1);
    expect(read.acts).toHaveLength(1);
  });

  it('refuses to start a running pass again', () => {
    expect(problem('10,pass start,A,W,,1,root', '20,pass start,A,W,,1,fill')).toBe('3/pass: pass 1 is already running');
  });
});

describe('what the joint does not have', () => {
  const header = 'time,kind,place,who,celsius,instrument,certificate,calibrated on,probe';
  const told = (row: string): string =>
    readEvents(`${header}\n${row}\n`, { joint: plainJoint({ probes: [], instruments: [] }) })
      .problems.map(({ line, column, message }) => `${line}/${column}: ${message}`)
      .join();
  it.each([
    ['10,contact reading,plate-7/A/front/10,W,150,T-3,,,', /^2\/place: found plate-7; allowed is one of plate$/],
    ['10,contact reading,plate/A/front/10,W,150,T-3,,,zone Q', /^2\/probe: found zone Q; allowed is no probe/],
    ['10,calibration,,I,,CT-1,C 17,2026-01-05,', /^2\/instrument: found CT-1; .*add its register of instruments$/],
    ['10,contact reading,plate/A/front/10,W,150,T-3,,,', /^$/],
  ])('%s', (row, expected) => expect(told(row)).toMatch(expected));
});

it('a pass of a turning part says the time of a revolution where it begins', () => {
  const { acts, problems } = readEvents(
    'time,kind,place,who,pass,pass kind,revolution s\n10,pass start,A,W,1,fill,240\n20,pass end,,W,1,,240\n',
  );
  expect(acts.map(({ act }) => act)).toMatchObject([{ kind: 'pass start', revolutionSeconds: 240 }]);
  expect(problems.map(({ line, column }) => `${line}/${column}`)).toEqual(['3/revolution s']);
});

describe('files that are not events', () => {
  it.each([
    ['', /events file is empty/],
    ['time,kind\n', /the header lacks place, who/],
    ['time,kind,place,who,mood\n', /unknown columns mood; allowed are time, kind/],
    ['time,kind,place,who,who\n', /the column who stands twice/],
  ])('%j', (text, expected) => {
    expect(readEvents(text).problems[0]?.message).toMatch(expected);
  });

  it('are bounded', () => {
    expect(readEvents(new Uint8Array(limits.eventsMaximum + 1)).problems[0]?.message).toMatch(/at most 5000000/);
  });
});

describe('the help', () => {
  it('names every column and every kind', () => {
    for (const name of [...eventColumns, ...eventKinds]) expect(eventsFileHelp).toContain(name);
  });

  it('has an example that reads', () => {
    const example = eventsFileHelp.slice(eventsFileHelp.indexOf('Example:') + 'Example:'.length).replace(/^ +/gm, '');
    const read = readEvents(example);
    expect(read.problems).toEqual([]);
    expect(read.acts.map(({ act }) => act.kind)).toEqual(['heat', 'heat', 'pass start', 'pass end', 'contact reading']);
  });

  it('takes crayon and pyrometer with what they need', () => {
    const read = readEvents(
      [
        'time,kind,place,who,celsius,instrument,instrument kind,shows,emissivity,probe,use',
        '10,contact reading,plate-1/A/front/75,I. Inspector,150,CR-150,crayon,below,,T1,zone',
        '20,contact reading,plate-1/A/front/0,I. Inspector,210,P-1,pyrometer,,"0,85",,',
        '30,contact reading,plate-1/A/front/0,I. Inspector,150,CR-150,crayon,,,,',
        '40,contact reading,plate-1/A/front/0,I. Inspector,210,P-1,pyrometer,,bright,,',
      ].join('\n'),
    );
    expect(read.acts.map(({ act }) => act)).toMatchObject([
      { instrumentKind: 'crayon', shows: 'below', probe: 'T1', use: 'zone' },
      { instrumentKind: 'pyrometer', emissivity: 0.85, use: 'interpass' },
    ]);
    expect(read.problems.map(({ line, column }) => `${line}/${column}`)).toEqual(['4/shows', '5/emissivity']);
  });

  it('takes what happened to instruments, and says at the column what is wrong', () => {
    const read = readEvents(
      [
        'time,kind,place,who,instrument,certificate,calibrated on,due on,corrections,celsius,reference,reference celsius,result,text',
        '0,calibration,,I. Inspector,W1,C-7,2026-03-01,2027-02-28,"100:-0,4:0.8:2 | 200:-0.6:0.8:2",,,,,',
        '10,verification,,I. Inspector,B1,,,,,151,R-1,150.2,within its limit,',
        '20,adjustment,,I. Inspector,B1,,,,,,,,,new input stage',
        '30,calibration,,I. Inspector,W1,C-8,2026-03-01,,100:-0.4,,,,,',
        '40,calibration,,I. Inspector,W1,,2026-13-01,,,,,,,',
        '50,verification,,I. Inspector,B1,,,,,151,R-1,,within its limit,',
      ].join('\n'),
    );
    expect(read.acts.map(({ act }) => act)).toEqual([
      {
        kind: 'calibration',
        instrument: 'W1',
        certificate: 'C-7',
        calibratedOn: '2026-03-01',
        dueOn: '2027-02-28',
        corrections: [
          { atCelsius: 100, correctionKelvin: -0.4, expandedKelvin: 0.8, coverageFactor: 2 },
          { atCelsius: 200, correctionKelvin: -0.6, expandedKelvin: 0.8, coverageFactor: 2 },
        ],
      },
      {
        kind: 'verification',
        instrument: 'B1',
        reference: 'R-1',
        readCelsius: 151,
        referenceCelsius: 150.2,
        result: 'within its limit',
      },
      { kind: 'adjustment', instrument: 'B1', what: 'new input stage' },
    ]);
    expect(read.problems.map(({ line, column }) => `${line}/${column}`)).toEqual([
      '5/corrections',
      '6/certificate',
      '6/calibrated on',
      '7/reference celsius',
    ]);
  });
});
