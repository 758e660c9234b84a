/** An alarm in words: what is wrong and where, why it matters, and the first thing to do. */
import type { AlarmPriority } from '../judgement/alarm-rules.ts';
import type { Alarm, AlarmKind, Suppression } from '../judgement/assessment.ts';
import type { UnitSystem } from '../measure/units.ts';
import { listText } from './list.ts';
import { atMostText, ofLimitText } from './temperature.ts';

export interface AlarmWords {
  readonly what: string;
  /** What it leads to, if nobody does anything. */
  readonly why: string;
  readonly firstCheck: string;
}

export const alarmText = (alarm: Alarm, units: UnitSystem): AlarmWords => ({
  what: whatText(alarm, units),
  ...words[alarm.kind],
});

export const priorityText = (priority: AlarmPriority): string => priorities[priority];

/** Why an alarm that stands is not announced. */
export const suppressionText = (rule: Suppression): string => suppressions[rule];

/** An alarm by the key that an acknowledgement names: what it was about, without its numbers. */
export const alarmKeyText = (key: string): string => key.replace(/^(probe|board|far face)\//, '$1 ');

function whatText({ kind, value, limit, probe, probes, part, board }: Alarm, units: UnitSystem): string {
  const at = probe === undefined ? '' : ` at ${probe}`;
  const number = (text: typeof atMostText): string => (value === undefined ? '' : `: ${text(value, limit, units)}`);
  switch (kind) {
    case 'below minimum':
      return `Below the minimum preheat${at}${number(ofTheLimit)}`;
    case 'through thickness lost':
      return `Below the minimum inside${part === undefined ? ' a part' : ` part ${part}`}${number(ofTheLimit)} at the coldest point, at worst`;
    case 'above highest temperature':
      return `Hotter than allowed${at}${number(atMostText)}`;
    case 'break near its end':
      return `The break runs out: within five minutes${at} is too cold${number(ofTheLimit)}`;
    case 'maintenance temperature lost':
      return `Below the temperature to be kept during the break${at}${number(ofTheLimit)}`;
    case 'board silent':
      return `Board ${board ?? '(not named)'} fell silent${probes === undefined ? '' : `: ${listText(probes)} not judged while it is`}`;
    case 'probe fault':
      return `Probe fault${at}: its place is not judged`;
    case 'probe silent':
      return `No reading${at}: its place is not judged`;
    case 'far face not as computed':
      return `The far face${part === undefined ? '' : ` of part ${part}`} does not read what the heated one leads to${at === '' ? '' : `,${at}`}`;
    case 'not recording':
      return 'Not recording: what happens now is not kept';
  }
}

const words: Readonly<Record<AlarmKind, Omit<AlarmWords, 'what'>>> = {
  'below minimum': {
    why: 'Metal that is laid on colder steel cools too fast and can crack.',
    firstCheck: 'Stop the arc when you can, see that the heat is on there and the insulation in place, and heat again.',
  },
  'through thickness lost': {
    why: 'The inside draws the heat out of the weld, whatever the face reads.',
    firstCheck:
      'Stop the arc when you can, turn the heat on, insulate the far face, and wait until the part is warm through.',
  },
  'above highest temperature': {
    why: 'Steel that was too hot can stay soft or brittle, and nothing puts it right.',
    firstCheck:
      'Turn the heat down there and see whether the probe sits beside a flame or a heater. Then ask the coordinator.',
  },
  'break near its end': {
    why: 'What the procedure asks to be kept warm is about to fall below it.',
    firstCheck: 'Turn the heat on, or go on welding once the joint is ready.',
  },
  'maintenance temperature lost': {
    why: 'Hydrogen stays where it is in a part that has cooled, and the procedure asks for it to be kept warm.',
    firstCheck: 'Turn the heat on. Before going on, see what the procedure asks after such a fall.',
  },
  'board silent': {
    why: 'While it is silent nothing is known of these places, and no pass that starts can be judged there. Once it is heard again this stands for five minutes more, in case it goes again.',
    firstCheck: 'See whether the board has power and its cable is plugged in at both ends.',
  },
  'probe fault': {
    why: 'A pass that starts now cannot be judged at this place.',
    firstCheck:
      'See on the page Links whether its board or instrument answers. If it does: with heating and welding current off, look at the wire, the plug and the weld of the tip.',
  },
  'probe silent': {
    why: 'A pass that starts now cannot be judged at this place.',
    firstCheck:
      'See on the page Links whether its board or instrument answers. If it does, look at the plug of this probe.',
  },
  'far face not as computed': {
    why: 'One of the two faces is read wrong, so that the inside is not judged.',
    firstCheck:
      'With the heat off, see whether the far probe sits on the part, and whether the heated one reads the heater.',
  },
  'not recording': {
    why: 'What is not kept cannot be shown to anybody later.',
    firstCheck:
      'Look at the disk of the station: is it full or unplugged? Write down readings and passes by hand until it records again.',
  },
};

const priorities: Readonly<Record<AlarmPriority, string>> = {
  high: 'High: at once',
  medium: 'Medium: within minutes',
  low: 'Low: before the next pass',
};

const suppressions: Readonly<Record<Suppression, string>> = {
  'before heating': 'not announced before heating begins',
  'after welding': 'not announced once welding is complete',
  'first heating': 'not announced while the part is heated for the first time',
  'break kept warm': 'not announced in a break: then the temperature to be kept counts',
  'board silent': 'follows from the silence of its board',
  'below minimum': 'follows from the face being below the minimum',
};

const ofTheLimit: typeof atMostText = (value, limit, units, bound) =>
  ofLimitText(value, limit, units, undefined, bound);
