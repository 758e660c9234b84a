/** How sure the picture of one part is, in the words that the report has too: what it was computed from, and what of it is not known. */
import type { SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { begun } from '../../../server/wording/list.ts';
import * as basis from '../../../server/wording/section-basis.ts';
import { boundedText, differenceText } from '../../../server/wording/temperature.ts';

/** One line each: band, thermal properties, far face, heat sideways, loss that was found. */
export const sureTexts = (
  section: SectionStatus,
  minimum: MilliCelsius | undefined,
  units: UnitSystem,
): readonly { readonly name: string; readonly text: string }[] => {
  const { coldest, steel, lossFound, leavesSideways } = section;
  const lines: readonly (readonly [name: string, text: string | undefined])[] = [
    ['Coldest point', coldest && `${boundedText(coldest, units, { limit: minimum })}; the lowest is judged`],
    ['Conducts as', steel && basis.steelText(steel)],
    ['Far face', basis.farFaceText(section)],
    ['Heat sideways', leavesSideways === undefined ? undefined : basis.sidewaysText(leavesSideways, units)],
    ['Loss found', lossFound && basis.lossText(lossFound, units)],
  ];
  return lines.flatMap(([name, text]) => (text === undefined ? [] : [{ name, text }]));
};

/** What was not known of the inside at the start still widens the band; not worth a word once it is within 1 K. */
export const startText = ({ startLeft }: SectionStatus, units: UnitSystem): string | undefined =>
  startLeft === undefined || startLeft.atMost <= 1000
    ? undefined
    : `The inside was not known at the start: up to ${differenceText(startLeft.atMost, units)} of the band are from that, and go as time passes`;

/** The far probe reads what conduction does not allow. */
export const doubtText = ({ doubted }: SectionStatus, units: UnitSystem): string | undefined =>
  doubted && `${begun(basis.doubtText(doubted, units))}.`;
