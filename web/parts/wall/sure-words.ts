/** How sure the picture of one part is: band, thermal properties, what is left of the start, loss that was found, a far probe in doubt. */
import type { SectionStatus } from '../../../server/judgement/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { farSideText } from '../../../server/wording/section.ts';
import { differenceText, temperatureText } from '../../../server/wording/temperature.ts';
import { betweenText } from './words.ts';

/** One line each: band, thermal properties, far face, loss that was found. */
export const sureTexts = (
  section: SectionStatus,
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): readonly { readonly name: string; readonly text: string }[] => {
  const { coldest, steel, lossFound, farMeasured, farSide } = section;
  return [
    ...(coldest === undefined
      ? []
      : [{ name: 'Coldest point', text: `${betweenText(coldest, minimum, units)}; the lowest is judged` }]),
    ...(steel === undefined
      ? []
      : [
          {
            name: 'Conducts as',
            text: `${steel.name}, ${chosenBy[steel.by]}; ${steel.source}; ${steel.status}, between grades ${Math.round(steel.band * 100)} % either way`,
          },
        ]),
    {
      name: 'Far face',
      text: farMeasured ? 'measured, no loss assumed' : `${farSideText(farSide)}, least to most loss carried`,
    },
    ...(lossFound === undefined
      ? []
      : [
          {
            name: 'Loss found',
            text: `${Math.round(lossFound.coefficient)} ± ${Math.ceil(lossFound.uncertainty)} W/(m² K) at the far face, from both probes`,
          },
        ]),
  ];
};

const chosenBy: Readonly<Record<NonNullable<SectionStatus['steel']>['by'], string>> = {
  entered: 'as entered',
  'kind of material': 'by the kind of material',
  analysis: 'by the analysis',
};

/** What was not known of the inside at the start still widens the band; not worth a word once it is within 1 K. */
export const startText = ({ startLeft }: SectionStatus, units: UnitSystem): string | undefined =>
  startLeft === undefined || startLeft.atMost <= 1000
    ? undefined
    : `The inside was not known at the start: up to ${differenceText(startLeft.atMost, units)} of the band are from that, and go as time passes`;

/** The far probe reads what conduction does not allow. */
export const doubtText = ({ doubted }: SectionStatus, units: UnitSystem): string | undefined =>
  doubted === undefined
    ? undefined
    : `The far probe reads ${temperatureText(doubted.measured, units)}; from the heated face it would be ${betweenText(doubted, undefined, units)}. Look at its contact, and at what was entered for that side.`;
