/** Readings taken by hand, each with its instrument and its code, and with the probe that it was held beside. */

import type { HandReading } from '../../judgement/measuring/hand-reading.ts';
import { rules } from '../../judgement/rules.ts';
import type { MilliCelsius } from '../../measure/quantity.ts';
import {
  handKindText,
  handValueText,
  instrumentCodesText,
  plusMinusText,
  signedDifferenceText,
  uncertaintyText,
} from '../../wording/instrument.ts';
import { temperatureText } from '../../wording/temperature.ts';
import { durationText } from '../../wording/time.ts';
import { placeText, useText } from '../../wording/words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const handReadingsSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Readings by hand',
  blocks: [
    readingTable(facts, times),
    ...(facts.handReadings.length === 0 ? [] : [twinTable(facts, times), paragraph(meaning, 'small')]),
  ],
});

const meaning = `A reading by hand counts for ${durationText(rules.contactReadingAge)}. In the zone it counts where it is below the minimum, and in place of the probe beside it while that probe is not trusted. A crayon shows no value: where it melted the part was at least so warm, where it did not it was below. A pyrometer depends on the emissivity set on it. ${instrumentCodesText}`;

const readingTable = (facts: ReportFacts, times: Times): Block => {
  const { units } = facts.assessment.requirement;
  return {
    kind: 'table',
    caption: 'Readings by hand, with their corrections',
    columns: [
      { heading: 'Time', share: 4 },
      { heading: 'With', share: 6 },
      { heading: 'Reads', share: 4, align: 'right' },
      { heading: 'k = 2', share: 4, align: 'right' },
      { heading: 'For, where', share: 8 },
      { heading: 'Probe beside it', share: 6 },
      { heading: 'By', share: 4 },
    ],
    rows: facts.handReadings.map((each) => [
      [times.when(each.at), ...(each.enteredAt > each.at ? [`entered ${times.when(each.enteredAt)}`] : [])].join('\n'),
      [
        each.instrument,
        each.instrumentKind === undefined ? 'kind not stated' : handKindText(each.instrumentKind),
        ...(each.emissivity === undefined ? [] : [`emissivity ${each.emissivity}`]),
      ].join('\n'),
      handValueText(each, units, { limit: limitFor(facts, each) }),
      plusMinusText((2 * each.standardUncertainty) as typeof each.standardUncertainty, each.correction, units),
      [useText(each.use), `${each.place.part}: ${placeText(each.place, units)}`].join('\n'),
      besideText(each, facts),
      each.who,
    ]),
    empty: 'None was entered.',
  };
};

const limitFor = ({ assessment: { limits } }: ReportFacts, { use }: HandReading): MilliCelsius | undefined =>
  use === 'interpass' ? limits.interpassMaximum : limits.preheatMinimum;

const besideText = (each: HandReading, facts: ReportFacts): string => {
  const { probe, twin } = each;
  const { units } = facts.assessment.requirement;
  if (probe === undefined) return 'none';
  if (twin === undefined) return each.bound === undefined ? `${probe}, which gave no reading` : probe;
  return [
    `${probe} ${temperatureText(twin.temperature, units, { limit: limitFor(facts, each) })}`,
    `${signedDifferenceText(twin.difference, units)}, at most \u00B1${uncertaintyText(twin.expandedUncertainty, units)}${twin.agrees ? '' : ': apart'}`,
  ].join('\n');
};

/** The history of each probe. */
const twinTable = (facts: ReportFacts, times: Times): Block => {
  const { units } = facts.assessment.requirement;
  const twinsOf = (probe: string) =>
    facts.handReadings.flatMap(({ at, twin }) => (twin?.probe === probe ? [{ ...twin, at }] : []));
  return {
    kind: 'table',
    caption: 'By hand minus probe, as it went on',
    columns: [
      { heading: 'Probe', share: 3 },
      { heading: 'Read', share: 2, align: 'right' },
      { heading: 'Difference', share: 14 },
      { heading: 'Apart', share: 2, align: 'right' },
    ],
    rows: facts.joint.probes
      .map(({ id }) => ({ id, twins: twinsOf(id) }))
      .filter(({ twins }) => twins.length > 0)
      .map(({ id, twins }) => [
        id,
        `${twins.length}`,
        shortened(twins.map(({ at, difference }) => `${signedDifferenceText(difference, units)} at ${times.when(at)}`)),
        `${twins.filter(({ agrees }) => !agrees).length}`,
      ]),
    empty: 'None was held beside a probe.',
  };
};

/** The newest of a long history; the rest is counted and stands in the table above. */
const shortened = (texts: readonly string[]): string => {
  const left = texts.length - twinsListed;
  return [...(left > 0 ? [`${left} before`] : []), ...texts.slice(-twinsListed)].join('; ');
};
const twinsListed = 12;
