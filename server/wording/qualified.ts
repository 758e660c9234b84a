/** How a procedure stands against the test piece that qualifies it, in words for screen and paper. */
import { milliCelsius } from '../measure/quantity.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Compared, Missing, Standing } from '../metallurgy/qualified-range.ts';
import { heatInputFigureText } from './length.ts';
import { limitText } from './temperature.ts';

export interface ComparedWords {
  readonly name: string;
  readonly standing: Standing;
  /** "Outside: 90 °C, qualified from 95 °C (test piece 150 °C)". */
  readonly what: string;
  /** "ASME IX QW-406.1, second-hand". */
  readonly source: string;
}

export const comparedText = (compared: Compared, units: UnitSystem): ComparedWords => ({
  name: names[compared.variable],
  standing: compared.standing,
  what: `${standings[compared.standing]}: ${detail(compared, units)}`,
  source:
    compared.clause.status === 'entered'
      ? `range of record ${compared.clause.name}`
      : `${compared.clause.name}, ${compared.clause.status}`,
});

/** What holds of every limit of departure named here. */
export const qualifiedCaution =
  'These limits of departure are known here second-hand or from memory: check them in your copy of the standard. Inside them a procedure may still not be qualified, since other variables count too. A minimum of the construction code stands above a lower qualified value.';

const names: Readonly<Record<Compared['variable'], string>> = {
  preheat: 'Minimum preheat',
  interpass: 'Maximum interpass',
  maintenance: 'Kept until heat treatment',
  'post-heating': 'Post-heating',
  'heat input': 'Heat input',
};
const standings: Readonly<Record<Standing, string>> = { inside: 'Inside', outside: 'OUTSIDE', open: 'Open' };

function detail(compared: Compared, units: UnitSystem): string {
  const { variable, stated, tested, limit, missing } = compared;
  const shown = (value: number): string =>
    variable === 'heat input' ? heatInputFigureText(value, units) : limitText(milliCelsius(value), units);
  if (variable === 'post-heating') {
    const asked = stated === undefined ? 'not asked for' : `asked for at ${shown(stated)}`;
    return `${asked}, test piece ${tested === undefined ? 'without it' : `at ${shown(tested)}`}`;
  }
  const from =
    variable === 'interpass' || (variable === 'heat input' && (stated ?? 0) >= (limit ?? 0)) ? 'up to' : 'from';
  const range = limit === undefined ? '' : `, qualified ${from} ${shown(limit)}`;
  const test = tested === undefined ? '' : ` (test piece ${shown(tested)})`;
  const ask = missing === undefined ? '' : `; ${asks[missing]}`;
  return `${stated === undefined ? 'not stated' : shown(stated)}${range}${test}${ask}`;
}

const asks: Readonly<Record<Missing, string>> = {
  'impact tests': 'above it hangs on whether impact tests are required: state it in the procedure',
  'material group': 'above it hangs on the material group: state in the procedure whether the standard lets it rise',
};
