/** The register of instruments with its calibration, and how uncertain each probe's readings are, term by term. */
import type { MilliCelsius } from '../../measure/quantity.ts';
import { chainOf } from '../../reading/chain.ts';
import { type BudgetTerm, budgetOf } from '../../reading/uncertainty.ts';
import { calibrationText, uncertaintyText } from '../../wording/instrument.ts';
import { limitText } from '../../wording/temperature.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph } from '../page-model.ts';
import { groupedBy } from '../papers/grouped-by.ts';

export const instrumentBlocks = (facts: ReportFacts): Block[] => [
  registerTable(facts),
  budgetTable(facts),
  paragraph(basis, 'small'),
];

const basis =
  'Temperatures have the corrections in them; what the instruments gave stands in the CSV of all readings and in the record. Uncertainty: limits plus or minus are taken as evenly spread, certificates by their coverage factor; the root of the sum of squares, times two (k = 2). An asterisk marks what nobody entered: it is taken at its widest ordinary value. Noise, ageing of wires and heat that the part draws unevenly are not in it.';

const registerTable = ({ assessment }: ReportFacts): Block => ({
  kind: 'table',
  caption: 'Instruments and their calibration, as last entered',
  columns: [
    { heading: 'Instrument', share: 4 },
    { heading: 'Kind', share: 4 },
    { heading: 'Class or error', share: 5 },
    { heading: 'Certificate', share: 4 },
    { heading: 'Of', share: 4 },
    { heading: 'Due', share: 4 },
    { heading: 'Points', share: 2, align: 'right' },
    { heading: 'Calibration', share: 4 },
  ],
  rows: (assessment.instruments ?? []).map(({ instrument, calibration }) => [
    instrument.id,
    instrument.kind,
    instrument.toleranceClass ??
      (instrument.maximumErrorKelvin === undefined
        ? 'not entered'
        : `±${uncertaintyText(instrument.maximumErrorKelvin * 1000, assessment.requirement.units)}`),
    instrument.certificate ?? 'not entered',
    instrument.calibratedOn ?? '',
    instrument.dueOn ?? '',
    `${instrument.corrections?.length ?? 0}`,
    calibrationText[calibration],
  ]),
  empty: 'The register holds no instrument.',
});

/** At the minimum preheat, or at 150 °C where there is none: readings count most where the limit is. */
const budgetTable = ({ joint, assessment }: ReportFacts): Block => {
  const { units } = assessment.requirement;
  const at = assessment.limits.preheatMinimum ?? (150_000 as MilliCelsius);
  const register = (assessment.instruments ?? []).map(({ instrument }) => instrument);
  return {
    kind: 'table',
    caption: `Uncertainty of the readings at ${limitText(at, units)}`,
    columns: [
      { heading: 'Probe', share: 6 },
      { heading: 'From', share: 18 },
      { heading: 'k = 2', share: 4, align: 'right' },
    ],
    rows: groupedBy(
      joint.probes.map((probe) => {
        const { terms, expandedKelvin } = budgetOf(probe, chainOf(probe, register), at / 1000);
        const text = (term: BudgetTerm): string =>
          `${term.source} ${uncertaintyText(term.statedKelvin * 1000, units)}${term.isKnown ? '' : '*'} (${term.basis})`;
        return {
          id: probe.id,
          from: terms.map(text).join('; '),
          width: `±${uncertaintyText(expandedKelvin * 1000, units)}`,
        };
      }),
      ({ from, width }) => `${from}\n${width}`,
    ).map(([, ...alike]) => [alike.map(({ id }) => id).join(', '), alike[0]!.from, alike[0]!.width]),
    empty: 'No probe was fitted.',
  };
};
