/**
 * AWS D1.1, hydrogen control (annex "Guideline on alternative methods for determining preheat"; the Pcm method of
 * ISO/TR 17844): group of susceptibility from Pcm and hydrogen, then a table by restraint and thickness. The zone
 * of the diagram of carbon and carbon equivalent is a line in a figure: it is asked of a person, never computed.
 */
import { unitsOf } from '../../measure/units.ts';
import type { WorkingInput, WorkingTerm } from '../answer.ts';
import { celsiusOfLimit, thickestAtJoint, unitsFlag } from '../job-units.ts';
import type { Method, Outcome, PartFacts } from '../method.ts';
import { plain } from '../number.ts';
import { type Cell, cellOf, thicknessBand } from './aws-d1-1-restraint-table.ts';
import {
  type Group,
  groupByIndex,
  groupByTable,
  type HydrogenLevel,
  higherGroup,
  hydrogenLevel,
  roundedIndex,
  susceptibilityIndex,
} from './susceptibility.ts';

const askRestraint = 'the restraint of the joint: low, medium or high';

export const awsD11HydrogenControl: Method = {
  id: 'aws-d1-1-hydrogen-control',
  title: 'AWS D1.1 hydrogen control',
  edition: 'AWS D1.1, annex XI (2004 to 2008), I (2010), H (2015), B (2020, 2025)',
  role: 'may govern',
  codeSets: ['AWS D1.1'],
  ferriticOnly: true,
  tabulated: true,
  ownFacts: ({ joint }) => (joint.restraint === undefined ? [askRestraint] : []),
  formula:
    'SI = 12·Pcm + log10(H), H 5, 10 or 30 by the level of hydrogen; then the table by group, restraint, thickness',
  needs: ['analysis with all elements of Pcm', 'thickness', 'diffusible hydrogen', 'restraint'],
  range: [],
  source: 'AWS D1.1, annex on alternative methods for preheat; two cells verified, the other figures from memory',
  status: 'from memory',
  work,
};

function work(facts: PartFacts): Outcome {
  const { joint, part, hydrogen } = facts;
  const pcm = facts.equivalent('Pcm');
  const thickness = thickestAtJoint(joint);
  const { restraint } = joint;
  if (pcm.value === undefined || !hydrogen.known || restraint === undefined) {
    const missing = [
      ...(pcm.missing.length > 0 ? [`${pcm.missing.join(', ')} in the analysis of ${part.id}`] : []),
      ...(hydrogen.known ? [] : [hydrogen.ask]),
      ...(restraint === undefined ? [askRestraint] : []),
    ];
    return { kind: 'asks', missing, inputs: [thickness, ...(hydrogen.known ? [hydrogen.input] : [])] };
  }
  const hd = hydrogen.input;
  const level = hydrogenLevel(hd.value);
  const inputs: WorkingInput[] = [
    { name: 'Pcm', value: pcm.value, unit: '%', from: 'analysis of the part' },
    hd,
    { name: 'H', value: level.h, unit: 'ml/100 g', from: `level ${level.name}` },
    thickness,
  ];
  const index = susceptibilityIndex(pcm.value, level.h);
  const byIndex = groupByIndex(index);
  if (byIndex === undefined) {
    const reason = `the susceptibility index ${plain(roundedIndex(index), 1)} is above 7.0, the end of the method`;
    return { kind: 'refuses', reason, inputs };
  }
  const { group, words } = chosenGroup(pcm.value, level, index, byIndex);
  const system = unitsOf(joint);
  const cell = cellOf(system, restraint, thicknessBand(system, thickness.value), group);
  return {
    kind: 'computes',
    celsius: system === 'metric' ? cell.degrees : celsiusOfLimit(cell.degrees),
    inputs,
    terms: indexTerms(pcm.value, level, hd.value),
    flags: unitsFlag(joint),
    notes: [
      words,
      cellWords(cell, system === 'metric' ? '°C' : '°F', `${restraint} restraint, group ${group}`),
      ...compositionNote(pcm.outOfRange, pcm.rangeOf),
      ...zoneNote(joint.crackingZone),
    ],
    extended: [],
  };
}

function chosenGroup(
  pcm: number,
  level: HydrogenLevel,
  index: number,
  byIndex: Group,
): { group: Group; words: string } {
  const table = groupByTable(pcm, level.name);
  const head = `group ${byIndex} by the index ${plain(roundedIndex(index), 1)}`;
  if (table === undefined) {
    return { group: byIndex, words: `${head}; the look-up table ends below Pcm 0.38, so that the index alone counts` };
  }
  const group = higherGroup(byIndex, table.group);
  const tail = byIndex === table.group ? 'the two agree' : `the higher, ${group}, counts`;
  return {
    group,
    words: `${head}, group ${table.group} by the look-up table (${level.name}, Pcm below ${table.below}); ${tail}`,
  };
}

function indexTerms(pcm: number, level: HydrogenLevel, hd: number): WorkingTerm[] {
  const step = (name: string, formula: string, value: number): WorkingTerm => ({ name, formula, value, unit: '' });
  return [
    step('susceptibility index', `12·Pcm + log10(${plain(level.h)})`, susceptibilityIndex(pcm, level.h)),
    step(
      'index with the actual hydrogen, for comparison',
      `12·Pcm + log10(${plain(hd)})`,
      susceptibilityIndex(pcm, hd),
    ),
  ];
}

const cellWords = ({ degrees, orLower }: Cell, unit: string, where: string): string =>
  orLower
    ? `the table prints "<${degrees} ${unit}" (${where}): a lower temperature of the part may be enough`
    : `the table prints ${degrees} ${unit} (${where})`;

/** The code bounds the index and not the composition; whoever reads the value should still know. */
const compositionNote = (outOfRange: readonly string[], rangeOf: string): string[] =>
  outOfRange.length === 0
    ? []
    : [`Pcm is used outside its range of composition: ${outOfRange.join(', ')} (${rangeOf})`];

const zones = {
  I: 'cracking is unlikely; hydrogen control where hydrogen or restraint is high',
  II: 'hardness control may give a lowest heat input for single-pass fillets without preheat, else hydrogen control',
  III: 'hydrogen control is required',
} as const;

const zoneNote = (zone: keyof typeof zones | undefined): string[] =>
  zone === undefined ? [] : [`zone ${zone}, as stated: ${zones[zone]} (from memory)`];
