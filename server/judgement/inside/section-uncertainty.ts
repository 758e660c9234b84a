/** How uncertain the readings are that drive a section: computed where their chains are known, else at the rules' figures. */
import { expandedFactor, rules } from '../rules.ts';
import type { GoodReading } from '../state.ts';

export interface SectionUncertainty {
  /** Of one probe, plus or minus. */
  readonly probeKelvin: number;
  /** Of two against each other. */
  readonly differenceKelvin: number;
}

/** The least certain of the readings stands for all; one whose chain is not wholly known leaves it at the rules' figures. */
export function sectionUncertainty(readings: readonly GoodReading[]): SectionUncertainty {
  const known = readings.flatMap(({ standardUncertainty: standard, isChainKnown }) =>
    standard === undefined || isChainKnown !== true ? [] : [standard],
  );
  if (known.length === 0 || known.length < readings.length)
    return { probeKelvin: rules.probeUncertaintyKelvin, differenceKelvin: rules.farFaceUncertaintyKelvin };
  const probeKelvin = (expandedFactor * Math.max(...known)) / 1000;
  return { probeKelvin, differenceKelvin: probeKelvin * Math.sqrt(2) };
}
