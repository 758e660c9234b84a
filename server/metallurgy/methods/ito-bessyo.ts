/**
 * Ito and Bessyo, as in JIS B 8285: cracking parameter from Pcm, hydrogen and restraint, and a preheat linear in it.
 * From memory. It compares only, and never leaves its range: with thickness or hydrogen beyond it the straight line
 * runs away.
 *
 * Its hydrogen is the old glycerine value. Two published conversions from ISO 3690 differ, so that neither is
 * taken: a glycerine value that is stated counts, else the value of ISO 3690 as it is, which is on the safe side.
 */
import type { WorkingInput, WorkingTerm } from '../answer.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { outside, type Range } from '../range.ts';

/** Hydrogen in ml/100 g; the restraint either as intensity K in N/mm2 or by the thickness t in mm. */
export interface ItoBessyoInputs {
  readonly pcm: number;
  readonly h: number;
  readonly restraint: { readonly k: number } | { readonly t: number };
}

const range: readonly Range[] = [
  bound('plate thickness', 't', 'mm', 19, 50),
  bound('hydrogen', 'H', 'ml/100 g', 1, 5),
  bound('restraint intensity', 'K', 'N/mm²', 5000, 33_000),
];

export const itoBessyo: Method = {
  id: 'ito-bessyo',
  title: 'Ito and Bessyo',
  edition: 'Ito and Bessyo 1968; JIS B 8285',
  role: 'comparison only',
  codeSets: [],
  ferriticOnly: true,
  formula: 'T0 = 1440·Pw − 392, Pw = Pcm + H/60 + K/400000; without K: Pc = Pcm + H/60 + t/600',
  needs: ['analysis with all elements of Pcm', 'plate thickness or restraint intensity', 'diffusible hydrogen'],
  range,
  source: 'Ito and Bessyo; JIS B 8285',
  status: 'from memory',
  work,
};

/** Addends in degrees Celsius: the parameter's three parts times 1440, and the constant. */
export function itoBessyoTerms({ pcm, h, restraint }: ItoBessyoInputs): readonly WorkingTerm[] {
  const term = (name: string, formula: string, value: number): WorkingTerm => ({ name, formula, value, unit: '°C' });
  return [
    term('Pcm', '1440·Pcm', 1440 * pcm),
    term('hydrogen', '1440·H/60', (1440 * h) / 60),
    'k' in restraint
      ? term('restraint', '1440·K/400000', (1440 * restraint.k) / 400_000)
      : term('thickness', '1440·t/600', (1440 * restraint.t) / 600),
    term('constant', '−392', -392),
  ];
}

function work(facts: PartFacts): Outcome {
  const { joint, part } = facts;
  const pcm = facts.equivalent('Pcm');
  const hydrogen = glycerineOr(facts);
  const t: WorkingInput = { name: 't', value: part.thicknessMillimetres, unit: 'mm', from: 'thickness of the part' };
  const k = joint.restraintIntensity;
  const restraint: WorkingInput[] =
    k === undefined ? [t] : [t, { name: 'K', value: k, unit: 'N/mm²', from: 'stated for the joint' }];
  if (pcm.value === undefined || !hydrogen.known) {
    const missing = [
      ...(pcm.missing.length > 0 ? [`${pcm.missing.join(', ')} in the analysis of ${part.id}`] : []),
      ...(hydrogen.known ? [] : [hydrogen.ask]),
    ];
    return { kind: 'asks', missing, inputs: [...restraint, ...(hydrogen.known ? [hydrogen.input] : [])] };
  }
  const h = hydrogen.input;
  const inputs = [{ name: 'Pcm', value: pcm.value, unit: '%', from: 'analysis of the part' }, h, ...restraint];
  const left = outside(range, { t: t.value, H: h.value, ...(k === undefined ? {} : { K: k }) });
  const composition = pcm.outOfRange.length === 0 ? [] : [`${pcm.outOfRange.join(', ')} (${pcm.rangeOf})`];
  const refused = [...composition, ...left.map((one) => one.words)];
  if (refused.length > 0) return { kind: 'refuses', reason: refused.join('; '), inputs };
  const terms = itoBessyoTerms({ pcm: pcm.value, h: h.value, restraint: k === undefined ? { t: t.value } : { k } });
  return {
    kind: 'computes',
    celsius: terms.reduce((sum, one) => sum + one.value, 0),
    inputs,
    terms,
    flags: hydrogen.glycerine
      ? []
      : [
          'the formula is for hydrogen by the old glycerine method; the value of ISO 3690 is used as it is, which is on the safe side, since published conversions differ',
        ],
    notes: ['holds for cracks in the root of y-groove tests at about 1.7 kJ/mm'],
    extended: [],
  };
}

type Hydrogen = PartFacts['hydrogen'] & { readonly glycerine: boolean };

const glycerineOr = ({ joint, hydrogen }: PartFacts): Hydrogen => {
  const value = joint.consumable.glycerineMillilitresPer100Grams;
  if (value === undefined) {
    const input = hydrogen.known ? { ...hydrogen.input, name: 'H' } : undefined;
    return input === undefined ? { ...hydrogen, glycerine: false } : { known: true, input, glycerine: false };
  }
  const input = { name: 'H', value, unit: 'ml/100 g', from: 'stated, by the glycerine method' };
  return { known: true, input, glycerine: true };
};

function bound(quantity: string, symbol: string, unit: string, minimum: number, maximum: number): Range {
  return { quantity, symbol, unit, minimum, maximum, below: 'refused', above: 'refused', status: 'from memory' };
}
