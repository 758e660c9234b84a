/** A sign of a faulty probe in words: what was seen, the likely cause, what to check, and how sure. */
import type { Finding } from '../judgement/assessment.ts';
import type { MilliCelsius, Millikelvin, Milliseconds } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Seen, SignKind, Sureness } from '../suspicion/sign.ts';
import type { FindingWords } from './finding.ts';
import { differenceText, temperatureText } from './temperature.ts';
import { durationText } from './time.ts';

export function signText(finding: Finding, units: UnitSystem): FindingWords {
  const { sign, sure = 'possible', seen = {}, board, against } = finding;
  const who = finding.probe ?? (board === undefined ? 'A probe' : `Board ${board}`);
  if (sign === undefined)
    return { what: `${who} is suspect`, why: 'Its readings are not what a sound probe gives.', first: kept };
  const { cause, check } = causes[sign];
  return {
    what: `${who} is suspect: ${seenText(sign, numbersOf(seen, units), against)}`,
    why: `${surenessText[sure]}: ${cause}.`,
    first: `${check} ${kept}`,
  };
}

/** A name of a sign for lists. */
export const signName = (sign: SignKind): string => causes[sign].name;

const kept = 'It stays in the judgement until somebody takes it out by name.';

const surenessText: Readonly<Record<Sureness, string>> = {
  clear: 'Clear',
  likely: 'Likely',
  possible: 'Possible, other causes fit as well',
};

interface Numbers {
  readonly reading: string;
  readonly others: string;
  readonly terminals: string;
  readonly difference: string;
  readonly lasting: string;
  readonly times: string;
  readonly share: string;
}

function numbersOf(seen: Seen, units: UnitSystem): Numbers {
  const celsius = (value: number | undefined): string =>
    value === undefined ? 'nothing' : temperatureText(value as MilliCelsius, units);
  return {
    reading: celsius(seen.reading),
    others: celsius(seen.others),
    terminals: seen.terminals === undefined ? 'not told' : celsius(seen.terminals),
    difference: seen.difference === undefined ? 'some' : differenceText(seen.difference as Millikelvin, units),
    lasting: seen.lasting === undefined ? 'some time' : durationText(seen.lasting as Milliseconds),
    times: `${seen.times ?? 'several'} times`,
    share: seen.share === undefined ? 'a part' : `${seen.share} %`,
  };
}

function seenText(sign: SignKind, seen: Numbers, against: string | undefined): string {
  const other = against ?? 'the other';
  switch (sign) {
    case 'open':
      if (seen.difference === 'some') return `single readings lost, ${seen.times}`;
      return seen.times === 'several times'
        ? `it wanders by ${seen.difference} from one reading to the next, as no steel can`
        : `it jumped by up to ${seen.difference}, ${seen.times}, as no steel can`;
    case 'short':
      return against === undefined
        ? `it fell by ${seen.difference} in one reading and stays at ${seen.reading}, where others have ${seen.others}`
        : `its rise is ${seen.share} of that of ${other} at the same place`;
    case 'dead-input':
      return `it stays at ${seen.reading}${seen.terminals === 'not told' ? '' : `, as its terminals at ${seen.terminals}`}, where others have ${seen.others}`;
    case 'stuck':
      return `the same number, ${seen.reading}, for ${seen.lasting}`;
    case 'reversed-terminal':
      return `it fell to ${seen.reading} while others rose to ${seen.others}`;
    case 'reversed-extension':
    case 'copper-extension':
      return `${seen.difference} off from ${other}, more as its cable head warms`;
    case 'wrong-type':
      return `its rise is ${seen.share} of that of ${other} at the same place`;
    case 'detached':
      return `it fell by ${seen.difference} in ${seen.lasting} while others stayed`;
    case 'tip-on-heater':
      return seen.lasting === 'some time'
        ? `restless, and ${seen.difference} above others while the heat is on`
        : `it fell by ${seen.difference} in ${seen.lasting} to what others read`;
    case 'mains-alias':
      return `it swings by ${seen.difference} every ${seen.lasting}, as no steel can`;
    case 'arc-noise':
      return `bursts of ${seen.difference} while the arc burns, and none without it`;
    case 'ground-loop':
      return `it steps by ${seen.difference} with the arc, and back`;
    case 'swapped':
      return `it reads what belongs to the place of ${other}, and the other way round`;
    case 'drift':
      return `${seen.difference} off from ${other} at the same place`;
    case 'cold-junction-jump':
      return `its terminals jumped by ${seen.difference} at once`;
    case 'slow-poll':
      return `its numbers change only every ${seen.lasting}`;
    case 'bus-zeros':
      return `nothing but zeros, ${seen.times}`;
    case 'bus-ones':
      return `every bit set, ${seen.times}`;
    case 'bus-doubled':
      return `${seen.reading}, twice what it should be`;
  }
}

interface Cause {
  readonly name: string;
  /** A phrase that ends a sentence. */
  readonly cause: string;
  readonly check: string;
}

const causes: Readonly<Record<SignKind, Cause>> = {
  open: {
    name: 'loose or broken wire',
    cause: 'a wire that breaks and touches again',
    check: 'With the current off, move wire and plug and look for the loose place.',
  },
  short: {
    name: 'short in the cable',
    cause: 'the two legs touch before the tip, so that it reads the place where they do',
    check: 'Follow the cable and look for a pinch, a twist or wet insulation.',
  },
  'dead-input': {
    name: 'dead input',
    cause: 'a dead input, a pair shorted at its terminals, or a tip that never lay on the part',
    check: 'Warm the tip by hand and see whether the reading moves; then look at plug and terminals.',
  },
  stuck: {
    name: 'stuck value',
    cause: 'the instrument repeats an old number',
    check: 'Pull the plug of the probe: if the number stays, restart the instrument.',
  },
  'reversed-terminal': {
    name: 'reversed at the terminal',
    cause: 'plus and minus are crossed at the terminals',
    check: 'Check the colours by their standard and cross the two wires back.',
  },
  'reversed-extension': {
    name: 'reversed extension cable',
    cause: 'the extension cable is crossed at both its ends, or is of copper',
    check: 'Check the colours at the cable head and at the terminals.',
  },
  'copper-extension': {
    name: 'copper extension cable',
    cause: 'the cable between head and instrument is of copper or of another type, or crossed at both ends',
    check: 'Look at the print on the cable; use extension cable of the type of the probe.',
  },
  'wrong-type': {
    name: 'wrong type set',
    cause: 'the wire is of another type than is set, or a part of its voltage is lost',
    check: 'Compare the colours of the wire with the type that the joint states.',
  },
  detached: {
    name: 'tip detached',
    cause: 'the tip has come off the part and hangs in the air',
    check: 'Look at the tip and fix it anew; what it read since then is not the part.',
  },
  'tip-on-heater': {
    name: 'tip on the heater',
    cause: 'the tip touches the heater or stands in its flame or glow, and the part is colder',
    check: 'Look where the tip lies and shield it from pads and flame.',
  },
  'mains-alias': {
    name: 'mains pick-up',
    cause: 'mains voltage in the cable that the instrument reads too seldom to see',
    check: 'Keep the cable away from heater leads, twist it, and set the filter of the input to the mains frequency.',
  },
  'arc-noise': {
    name: 'arc noise',
    cause: 'the arc reaches into the cables',
    check: 'Lead the cables away from torch and return lead, and earth their screens at one end.',
  },
  'ground-loop': {
    name: 'ground loop',
    cause: 'welding current runs past tips that are welded to the part, on inputs that are not isolated',
    check: 'Move the return clamp nearer to the arc, and use isolated inputs or insulated tips.',
  },
  swapped: {
    name: 'channels swapped',
    cause: 'two probes have changed places at the terminals',
    check: 'Warm one tip by hand and see which reading moves.',
  },
  drift: {
    name: 'drift',
    cause: 'one of the two has aged where it is hot, or lies elsewhere',
    check: 'Compare both with a third at one place; replace what is off.',
  },
  'cold-junction-jump': {
    name: 'jump of the terminals',
    cause: 'the sensor at the terminals failed, or the box was opened; every reading that hangs on it shifted',
    check: 'Look at the box, and compare the terminals with a thermometer.',
  },
  'slow-poll': {
    name: 'read faster than it converts',
    cause: 'the instrument is read faster than it makes new numbers',
    check: 'Set the period of the board to what its converter can do.',
  },
  'bus-zeros': {
    name: 'all bits zero',
    cause: 'the converter is dead or its data line is held low',
    check: 'Restart the board; if it stays, look at the converter and its wiring inside the box.',
  },
  'bus-ones': {
    name: 'all bits one',
    cause: 'the converter does not answer and its data line floats high',
    check: 'Restart the board; if it stays, look at the converter and its wiring inside the box.',
  },
  'bus-doubled': {
    name: 'doubled values',
    cause: 'one bit too many is read from the converter, which doubles every number',
    check: 'Restart the board; if it stays, have its reading of the converter looked at.',
  },
};
