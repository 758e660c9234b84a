/** The soak in one sentence: which rule, how far, and why it stopped. */
import type { SoakStatus } from '../judgement/soak-status.ts';
import type { Milliseconds } from '../measure/quantity.ts';
import { aboutText, durationText } from './time.ts';

export const soakText = (soak: SoakStatus): string => {
  switch (soak.state) {
    case 'not needed':
      return soak.rule === 'opposite'
        ? 'No soak needed: the face opposite the heat is measured.'
        : 'No hold by time: the minimum through the thickness is asked for.';
    case 'not judged':
      return 'Soak not judged: the heaters stay on and the procedure states no hold.';
    case 'not begun':
      return `Soak not begun. ${beginsWhen(soak)}`;
    case 'running':
      return `${name(soak)} running: ${progress(soak)}${toGo(soak)}.`;
    case 'paused':
      if (soak.pausedNear === true)
        return `${name(soak)} paused, a place lies within the guard band: ${progress(soak)}. It goes on when it lies beyond it within 60 s; later it begins again.`;
      return `${name(soak)} paused by missing readings: ${progress(soak)}. It goes on when they return within 60 s; later it begins again.`;
    case 'done':
      return `${name(soak)} done${soak.required === undefined ? '' : `: ${durationText(soak.required)}`}.`;
    case 'voided':
      return `Soak lost: ${cause(soak)}. ${beginsWhen(soak)}`;
  }
};

/** What is asked for before anything is measured: for the card at the part. */
export const soakAskedText = (rule: SoakStatus['rule'], required: Milliseconds | undefined): string => {
  const time = required === undefined ? '' : ` ${durationText(required)}`;
  switch (rule) {
    case 'opposite':
      return 'no wait: every side is measured on the face opposite the heat too';
    case 'wait':
      return `heat off, then wait${time}; every place at the minimum or above at the end of it`;
    case 'hold':
      return `hold${time} with every place at the minimum or above; the heaters stay on`;
    case 'through thickness':
      return 'no hold by time is stated: warm through is what counts';
    case 'none':
      return 'the heaters stay on and the procedure states no hold: ask before the first pass';
  }
};

/** The minimum through the thickness as the procedure asks for it, beside the rule by time. */
export const throughAskedText = (hold: Milliseconds): string =>
  `the coldest point through every part at the minimum or above${hold === 0 ? '' : ` for ${durationText(hold)}`}, computed from the probes`;

const name = ({ rule }: SoakStatus): string => (rule === 'hold' ? 'Hold' : 'Wait after heat off');

const progress = ({ done, required }: SoakStatus): string => {
  const passed = durationText(done ?? (0 as Milliseconds));
  return required === undefined ? passed : `${passed} of ${durationText(required)}`;
};

const toGo = ({ done, required }: SoakStatus): string =>
  required === undefined ? '' : `, ${aboutText((required - (done ?? 0)) as Milliseconds)} to go`;

const beginsWhen = ({ rule, required }: SoakStatus): string => {
  const time = required === undefined ? '' : ` and lasts ${durationText(required)}`;
  return rule === 'hold'
    ? `It begins when every place is at the minimum${time}.`
    : `It begins when heat off is entered with every place at the minimum${time}.`;
};

const cause = ({ voidedBy }: SoakStatus): string => {
  if (voidedBy === undefined) return 'no cause recorded';
  switch (voidedBy) {
    case 'heat on':
      return 'the heat was turned on again';
    case 'below minimum':
      return 'a place fell below the minimum';
    case 'gap':
      return 'readings were missing for more than 60 s';
    case 'guard band':
      return 'a place lay within the guard band for more than 60 s';
    case 'still rising':
      return 'the heated face still rose although the heat was entered as off';
    case 'break':
      return 'the procedure asks for it again after a break';
  }
};
