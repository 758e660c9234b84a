/** Which set of thermal properties a part is computed with: as entered, else by its kind of material, else by analysis. */
import type { Analysis, Element } from '../../weld/composition.ts';
import { type Part, type ThermalKind, thermalKinds } from '../../weld/part.ts';

export interface ThermalChoice {
  readonly kind: ThermalKind;
  readonly by: 'entered' | 'kind of material' | 'analysis';
}

/** Undefined where nothing tells: the kind of steel is then asked for. */
export function thermalChoiceOf(part: Pick<Part, 'conductsAs' | 'kind' | 'analyses'>): ThermalChoice | undefined {
  if (part.conductsAs !== undefined) return { kind: part.conductsAs, by: 'entered' };
  if (part.kind !== undefined) {
    const kind = byKind[part.kind];
    return kind === undefined ? undefined : { kind, by: 'kind of material' };
  }
  // The analysis of which heat goes slowest: the order of the list.
  const kinds = part.analyses.map(byAnalysis).filter((each) => each !== undefined);
  const kind = kinds.toSorted((a, b) => thermalKinds.indexOf(b) - thermalKinds.indexOf(a))[0];
  return kind === undefined ? undefined : { kind, by: 'analysis' };
}

const byKind: { readonly [kind in NonNullable<Part['kind']>]: ThermalKind | undefined } = {
  'C-Mn and fine grain': 'carbon',
  'quenched and tempered 690': 'low-alloy',
  'quenched and tempered 890 to 960': 'low-alloy',
  'Cr-Mo': 'low-alloy',
  '13Cr martensitic': 'chromium',
  '9Cr-1Mo-V': 'chromium',
  'ferritic stainless': 'chromium',
  austenitic: 'austenitic',
  // No set of their own: what is computed would be another metal.
  duplex: undefined,
  'nickel alloy': undefined,
};

/** The bounds between the sets are our own choice; the sets are wide enough to meet there. Percent. */
function byAnalysis({ percent }: Analysis): ThermalKind | undefined {
  const most = (element: Element): number | undefined => {
    const content = percent[element];
    return typeof content === 'object' ? content.atMost : content === 'not reported' ? undefined : content;
  };
  const [chromium, nickel, molybdenum] = [most('Cr'), most('Ni'), most('Mo')];
  // An element that is not reported is not zero.
  if (chromium === undefined || nickel === undefined || molybdenum === undefined) return undefined;
  if (chromium >= 10.5 && nickel >= 6) return 'austenitic';
  if (chromium >= 8) return 'chromium';
  return chromium + nickel + molybdenum >= 1 ? 'low-alloy' : 'carbon';
}
