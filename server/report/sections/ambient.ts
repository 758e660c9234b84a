/** The check of the probes at ambient before heating, as the newest one found it. */
import { milliCelsius } from '../../measure/quantity.ts';
import { outcomeText, restText } from '../../wording/ambient.ts';
import { signedDifferenceText } from '../../wording/instrument.ts';
import { begun } from '../../wording/list.ts';
import { limitText, temperatureText } from '../../wording/temperature.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const ambientBlocks = ({ assessment }: ReportFacts, times: Times): Block[] => {
  const { ambientCheck } = assessment;
  if (ambientCheck === undefined) return [];
  const { made } = ambientCheck;
  if (made === undefined) return [paragraph('Check at ambient: none is recorded before heating.')];
  const { units } = assessment.requirement;
  const read = made.airReadWith === undefined ? '' : `, read with ${made.airReadWith}`;
  const air = `Air ${limitText(milliCelsius(made.airCelsius), units)}${read}.`;
  return [
    {
      kind: 'table',
      caption: `Check at ambient, ${made.who}, ${times.when(made.at)}`,
      columns: [
        { heading: 'Probe', share: 4 },
        { heading: 'At rest', share: 3, align: 'right' },
        { heading: 'When touched', share: 4, align: 'right' },
        { heading: 'Found', share: 14 },
      ],
      rows: [
        ...made.probes.map((each) => [
          each.probe,
          each.atRest === undefined ? 'no reading' : temperatureText(each.atRest, units),
          each.moved === undefined ? '' : signedDifferenceText(each.moved, units),
          begun(outcomeText(each, units)),
        ]),
        ...ambientCheck.unchecked.map((probe) => [probe, '', '', 'Not checked']),
      ],
      empty: 'No probe of this joint was checked on the wire that it hangs on.',
    },
    paragraph(`${air} ${begun(restText(made, made.airCelsius, units))}.`, 'small'),
  ];
};
