/**
 * Yurioka's CEN: a cracking index and the cooling time to 100 °C that it asks for. The preheat that brings this
 * time about is read off charts and has no closed form, so that no temperature is given. Index and the first three
 * coefficients of the time from the abstract of the paper of 1983; the constant 41.0 and the units of the stress
 * from memory. The index takes hydrogen by the old glycerine method, which is asked for and never converted.
 */
import type { WorkingInput, WorkingTerm } from '../answer.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain } from '../number.ts';

/** Percent; ml/100 g by the glycerine method; no unit; kgf/mm2. */
export interface CrackingInputs {
  readonly cen: number;
  readonly h: number;
  readonly concentration: number;
  readonly stress: number;
}

/** Exact: one kilogram-force is 9.80665 N by definition. */
const newtonsPerKilogramForce = 9.80665;

export const yuriokaCen: Method = {
  id: 'yurioka-cen',
  title: 'Yurioka CEN',
  edition: 'Yurioka and others 1983',
  role: 'comparison only',
  codeSets: [],
  ferriticOnly: true,
  formula: 'CI = CEN + 0.15·log10(H) + 0.30·log10(0.017·Kt·σw); t100 ≥ exp(67.6·CI³ − 182.0·CI² + 163.8·CI − 41.0)',
  needs: [
    'analysis with all elements of CEN',
    'hydrogen by the glycerine method',
    'stress concentration Kt',
    'mean stress of the weld',
  ],
  range: [],
  source: 'Yurioka, Suzuki, Ohshita and Saito 1983; the constant 41.0 and the units of the stress from memory',
  status: 'from memory',
  work,
};

export const crackingIndex = ({ cen, h, concentration, stress }: CrackingInputs): number =>
  cen + 0.15 * Math.log10(h) + 0.3 * Math.log10(0.017 * concentration * stress);

/** Lowest cooling time to 100 °C in seconds. */
export const criticalSeconds = (index: number): number =>
  Math.exp(67.6 * index ** 3 - 182.0 * index ** 2 + 163.8 * index - 41.0);

function work(facts: PartFacts): Outcome {
  const { joint, part } = facts;
  const cen = facts.equivalent('CEN');
  const h = joint.consumable.glycerineMillilitresPer100Grams;
  const { stressConcentration: kt, meanWeldStressMegapascals: stress } = joint;
  const inputs: WorkingInput[] = [
    ...(cen.value === undefined ? [] : [input('CEN', cen.value, '%', 'analysis of the part')]),
    ...(h === undefined ? [] : [input('H', h, 'ml/100 g', 'stated, by the glycerine method')]),
    ...(kt === undefined ? [] : [input('Kt', kt, '', 'stated for the joint')]),
    ...(stress === undefined
      ? []
      : [input('σw', stress / newtonsPerKilogramForce, 'kgf/mm²', `stated as ${plain(stress)} MPa`)]),
  ];
  if (cen.value === undefined || h === undefined || kt === undefined || stress === undefined) {
    const missing = [
      ...(cen.missing.length > 0 ? [`${cen.missing.join(', ')} in the analysis of ${part.id}`] : []),
      ...(h === undefined ? ['the hydrogen of the consumable by the old glycerine method (JIS)'] : []),
      ...(kt === undefined ? ['the stress concentration Kt'] : []),
      ...(stress === undefined ? ['the mean stress of the weld'] : []),
    ];
    return { kind: 'asks', missing, inputs };
  }
  // The paper bounds carbon only; a high-alloy steel is kept out by the fence of Séférian's equivalent.
  const beyond = [cen, facts.equivalent('Cc')].flatMap(({ outOfRange, rangeOf }) =>
    outOfRange.length === 0 ? [] : [`${outOfRange.join(', ')} (${rangeOf})`],
  );
  if (beyond.length > 0) return { kind: 'refuses', reason: beyond.join('; '), inputs };
  const index = crackingIndex({
    cen: cen.value,
    h,
    concentration: kt,
    stress: stress / newtonsPerKilogramForce,
  });
  const seconds = criticalSeconds(index);
  return {
    kind: 'indicates',
    indication: `cracking index ${plain(index, 3)}: the weld has to take ${plain(seconds, 0)} s or more to cool to 100 °C; the preheat for that is read off a chart`,
    inputs,
    terms: [
      term('cracking index CI', 'CEN + 0.15·log10(H) + 0.30·log10(0.017·Kt·σw)', index, ''),
      term('cooling time to 100 °C', 'exp(67.6·CI³ − 182.0·CI² + 163.8·CI − 41.0)', seconds, 's'),
    ],
    flags: [],
    notes: ['the constant 41.0 and kgf/mm² as the unit of the stress are from memory'],
  };
}

const input = (name: string, value: number, unit: string, from: string): WorkingInput => ({ name, value, unit, from });
const term = (name: string, formula: string, value: number, unit: string): WorkingTerm => ({
  name,
  formula,
  value,
  unit,
});
