/** A finding in words: what was found, why it matters, what to do first. */
import type { Finding } from '../judgement/assessment.ts';
import type { Instant, MilliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import { afterFindingText, isAfterFinding } from './after-finding.ts';
import { ambientFindingText } from './ambient-finding.ts';
import { breakFindingText, isBreakFinding } from './break.ts';
import { checkFindingText, isCheckFinding } from './checks.ts';
import { capped, gap, lasted, only, reached, spread } from './finding-numbers.ts';
import { instrumentFindingText } from './instrument-finding.ts';
import { lengthText } from './length.ts';
import { isPassFinding, passFindingText } from './pass-finding.ts';
import { peopleFindingText } from './people-finding.ts';
import { qualifiedFindingText } from './qualified-finding.ts';
import { signText } from './sign.ts';
import { limitText, temperatureText } from './temperature.ts';
import { clockText } from './time.ts';

export interface FindingWords {
  /** What, where, with its number: a phrase in sentence case without a full stop. */
  readonly what: string;
  readonly why: string;
  readonly first: string;
}

/** A finding by the key that a decision names: what it was about, without its numbers and its time. */
export const findingKeyText = (key: string): string => {
  const parts = key.split('/');
  return (parts.length > 1 ? parts.slice(0, -1) : parts).filter((each) => each !== '').join(', ');
};

export const findingText = (finding: Finding, units: UnitSystem): FindingWords => {
  const probe = finding.probe ?? 'A probe';
  const at = finding.probe === undefined ? '' : ` at ${finding.probe}`;
  const start = finding.pass === undefined ? 'when a pass began' : `when pass ${finding.pass} began`;
  const during = finding.pass === undefined ? 'during a pass' : `during pass ${finding.pass}`;
  const inside = finding.part === undefined ? '' : ` inside ${finding.part}`;
  const { kind } = finding;
  if (kind === 'probe suspect') return signText(finding, units);
  if (isCheckFinding(kind)) return checkFindingText(kind, finding);
  if (isBreakFinding(kind)) return breakFindingText(kind, finding, units);
  if (isAfterFinding(kind)) return afterFindingText(kind, finding, units);
  if (isPassFinding(kind)) return passFindingText(kind, finding, units);
  switch (kind) {
    case 'silent':
      return {
        what: `${probe} gave no reading`,
        why: placeNotJudged,
        first: 'Look at the board, its cable and the plug of the probe.',
      };
    case 'intermittent':
      return {
        what: `${probe} came and went`,
        why: 'A wire that breaks and touches again can also read wrongly while it seems alive, so it is not trusted.',
        first: 'With the current off, move the wire and the plug and look for the loose place; fit the tip anew.',
      };
    case 'running away':
      return {
        what: `${probe} ran away from anything the part can do`,
        why: 'Such values come from a breaking or touching wire, not from the steel. They are kept and not trusted.',
        first: 'With the current off, look at the tip and along the wire for burnt or bare places.',
      };
    case 'out of range':
      return {
        what: `${probe} gave values that its type cannot have`,
        why: placeNotJudged,
        first: 'Check that a thermocouple is connected, its type, and its two wires for a swap.',
      };
    case 'open circuit':
      return {
        what: `${probe} has an open wire`,
        why: placeNotJudged,
        first: 'With the current off, look at the weld of the tip, the wire and the plug.',
      };
    case 'short circuit':
      return {
        what: `${probe} has a short circuit`,
        why: placeNotJudged,
        first: 'Look for bare wire that touches the part, a frame or a supply lead.',
      };
    case 'cold junction out of range':
      return {
        what: `${probe}: the terminal temperature of its board is out of range`,
        why: 'Every reading of that board hangs on the temperature at its terminals.',
        first: 'Move the board away from the heat, let it cool, and see whether its box is closed.',
      };
    case 'below minimum at pass start':
      return {
        what: `Below the minimum preheat${at} ${start}${reached(finding, units)}`,
        why: 'Welding below the minimum preheat lets the weld cool too fast; cracks may come later.',
        first: 'Tell the coordinator. What was welded cold may need examination before it is covered.',
      };
    case 'below minimum during pass':
      return {
        what: `Below the minimum preheat${at} ${during}${reached(finding, units)}`,
        why: 'The steel around the arc was colder than the minimum while welding went on.',
        first: 'Tell the coordinator, and heat again before the next pass.',
      };
    case 'minimum not judged':
      return {
        what: `Minimum preheat not judged ${finding.pass === undefined ? 'at a required place' : `for pass ${finding.pass}`}${at}`,
        why: 'A required place had no trusted, fresh reading. What was not measured is not taken as warm.',
        first: 'Mend or replace the probe, or take a contact reading, before the next pass.',
      };
    case 'soak not met':
      return {
        what: `Soak not complete ${start}${lasted(finding)}`,
        why: 'The surface may be warm while the inside is not.',
        first: 'Tell the coordinator. Next time let the soak run out before the arc.',
      };
    case 'soak not judged':
      return {
        what: `Soak not judged ${start}`,
        why: 'Without heat on and off, or a hold stated by the procedure, nobody can tell whether the heat went through.',
        first: 'Enter heat on and off as it happens, or have the hold stated in the procedure.',
      };
    case 'through thickness not met':
      return {
        what: `Not warm through${inside} ${start}${reached(finding, units)}`,
        why: 'Cold metal under a warm surface draws the heat out of the weld as if the part had not been preheated.',
        first: 'Tell the coordinator. Next time wait until the coldest point inside is at the minimum.',
      };
    case 'through thickness not held':
      return {
        what: `Not held long enough at the minimum through the thickness ${start}${lasted(finding)}`,
        why: 'The procedure asks for a time at the minimum all through, as margin for what is not known of the part.',
        first: 'Tell the coordinator. Next time let the hold run out before the arc.',
      };
    case 'through thickness not judged':
      return {
        what: `Minimum through the thickness not judged${inside} ${start}`,
        why: 'The procedure asks for it, and what is missing keeps it from being computed.',
        first:
          'See under "Through the thickness" what is missing, and measure on the far face where it is not to be had.',
      };
    case 'rises faster than steel':
      return {
        what: `${probe} rose faster than any heater can heat steel`,
        why: 'A probe that touches the heater or sits in a flame reads that, and the part is colder.',
        first: 'Look whether the tip touches the heater, and shield it from flame and pads.',
      };
    case 'far face not as computed':
      return {
        what: `${probe} does not agree with conduction from the heated face${finding.part === undefined ? '' : ` of ${finding.part}`}${only(finding, units)}${finding.limit === undefined ? '' : `, possible ${(finding.value ?? 0) > finding.limit ? 'at most' : 'at least'} ${temperatureText(finding.limit as MilliCelsius, units)}`}`,
        why: 'One of the two probes reads something else than the part, or the far side is not as it was entered.',
        first: 'Look at the contact of both tips, and at what lies behind the part.',
      };
    case 'interpass above maximum':
      return {
        what: `Interpass above the maximum${at} ${start}${capped(finding, units)}`,
        why: 'Too hot between passes costs toughness and strength.',
        first: 'Tell the coordinator. Wait for the window before the next pass.',
      };
    case 'interpass not judged':
      return {
        what: `Interpass not judged ${start}`,
        why: 'No reading at an interpass place was fresh enough, and no other place can stand for it.',
        first: 'Fit an interpass probe, or take a contact reading just before the arc.',
      };
    case 'above highest temperature':
      return {
        what: `Hotter than allowed${at}${capped(finding, units)}`,
        why: 'The part was hotter than the procedure allows anywhere; the steel itself may have changed.',
        first: 'Turn the heat down, keep the record, and ask the coordinator.',
      };
    case 'uneven':
      return {
        what: `Zone probes too far apart ${start}${spread(finding, units)}`,
        why: 'A wide spread means that part of the zone is heated by the other part, and stresses grow.',
        first: 'Shift heat to the cold side and let it even out.',
      };
    case 'heat off but still rising':
      return {
        what: `Heat entered as off, but the heated face still rose${at}${only(finding, units)}`,
        why: 'A reading on the heated face with the heat on shows the heater rather than the steel, so no wait was begun.',
        first: 'Turn the heat off, then enter it again.',
      };
    case 'too few zone probes':
      return {
        what: `Too few zone probes${finding.pass === undefined ? '' : ` for pass ${finding.pass}`}`,
        why: `Above ${lengthText(50, units)} the temperature has to hold over ${lengthText(75, units)} on each side; without a probe there it is not known.`,
        first: `Fit a zone probe at ${lengthText(75, units)} or more from the groove on each side.`,
      };
    case 'no minimum to judge':
      return {
        what: `No minimum preheat to judge${finding.pass === undefined ? '' : ` for pass ${finding.pass}`}`,
        why: 'Neither a procedure nor a method gave a number.',
        first: 'Bind the procedure, or complete the analysis, thickness, hydrogen and heat input.',
      };
    case 'source not verified':
      return {
        what: 'Nobody has put their name to the source of the readings',
        why: 'A port that does not identify its hardware could be anything, software included.',
        first: 'See what is connected, and declare it by name.',
      };
    case 'procedure below calculation':
      return {
        what: 'The procedure asks for less preheat than the calculation',
        why: 'A qualified procedure may know better than a formula, but somebody has to say so.',
        first: 'Have the coordinator answer by name, with the reason.',
      };
    case 'extended range not accepted':
      return {
        what: 'The governing calculation lies outside its stated range and nobody has accepted it',
        why: 'Beyond its range a formula is a guess that a person has to take on.',
        first: 'Have the coordinator accept it by name, or bind a procedure.',
      };
    case 'probe distrusted':
      return {
        what: `${probe} was taken out of the judgement`,
        why: 'Somebody, or the rule of the procedure, does not believe it. Its readings are kept; its place is not judged.',
        first: 'Mend or replace the probe, let a spare take its place over, or trust it again by name.',
      };
    case 'highest temperature not judged':
      return {
        what: `Highest temperature not judged${at}${capped(finding, units)}`,
        why: 'Only a probe that is distrusted or not read any more was above it. That proves no excess, and nothing against one.',
        first: 'Take a contact reading there, and find out whether the probe reads wrongly.',
      };
    case 'evenness not judged':
      return {
        what: `Evenness not judged ${start}${spread(finding, units)}`,
        why: 'The zone probes are too far apart only with a probe among them that is distrusted or not read any more.',
        first: 'Take a contact reading beside that probe.',
      };
    case 'recording interrupted':
      return {
        what: `Recording was interrupted${gap(finding)}`,
        why: 'What happened in that time is not in this record.',
        first: 'Find out why the station stopped, and add what was written down by hand as a note.',
      };
    case 'calibration overdue':
    case 'calibration not known':
    case 'verification failed':
    case 'calibration not shown':
    case 'twin reading apart':
      return instrumentFindingText(kind, finding, units);
    case 'ambient check not made':
    case 'ambient check failed':
    case 'ambient check not shown':
      return ambientFindingText(finding, kind, `${at} ${start}`, units);
    case 'entry outside role':
    case 'welder not qualified':
    case 'qualification lapsed':
      return peopleFindingText(kind, finding);
    case 'below qualified preheat':
    case 'interpass above qualified':
    case 'qualified interpass open':
    case 'qualified range not judged':
      return qualifiedFindingText(kind, finding, `${at} ${start}`, units);
    case 'within uncertainty':
      return {
        what: `Within the uncertainty of its reading${at} ${start}${only(finding, units)}${finding.limit === undefined ? '' : `, limit ${limitText(finding.limit as MilliCelsius, units)}`}`,
        why: 'The true temperature may lie on the other side of the limit. By simple acceptance the reading counts as it is.',
        first: 'Keep more distance from the limit, or measure with instruments that are known better.',
      };
    case 'within guard band':
      return {
        what: `Within the guard band${inside}${at}${finding.pass === undefined ? '' : ` at pass ${finding.pass}`}${only(finding, units)}${finding.limit === undefined ? '' : `, limit ${limitText(finding.limit as MilliCelsius, units)}`}`,
        why: 'So near the limit the reading proves neither that it was kept nor that it was broken.',
        first:
          'Heat or cool until the reading lies beyond the guard band, or measure with instruments that are known better.',
      };
  }
};

/** "14:03:22 to 14:05:10", "since 14:03:22", or one time where it was an instant. */
export const findingSpan = ({ from, to }: { readonly from: Instant; readonly to?: Instant }, zone: string): string => {
  if (to === undefined) return `since ${clockText(from, zone)}`;
  return to === from ? clockText(from, zone) : `${clockText(from, zone)} to ${clockText(to, zone)}`;
};

const placeNotJudged = 'Its place is not judged while it lasts, and a place not judged never counts as warm.';
