/**
 * Susceptibility of AWS D1.1 hydrogen control: SI = 12·Pcm + log10(H), and its group A to G. The code prints a
 * look-up table of groups beside the formula, and the two do not agree in every cell. Both are worked and the
 * higher group counts. Formula, groups and look-up from memory; one cell of the look-up is verified (level H2,
 * Pcm below 0.28: D).
 */
import { steady } from '../number.ts';

export const groups = ['A', 'B', 'C', 'D', 'E', 'F', 'G'] as const;
export type Group = (typeof groups)[number];

export interface HydrogenLevel {
  readonly name: 'H1' | 'H2' | 'H3';
  /** Hydrogen that the formula takes for the level, ml/100 g. */
  readonly h: number;
}

/** Level by diffusible hydrogen, ml/100 g. Above 30, which stands for "not controlled", the hydrogen itself counts. */
export const hydrogenLevel = (hd: number): HydrogenLevel =>
  hd <= 5 ? { name: 'H1', h: 5 } : hd <= 10 ? { name: 'H2', h: 10 } : { name: 'H3', h: Math.max(30, hd) };

/** Pcm in percent, H in ml/100 g. */
export const susceptibilityIndex = (pcm: number, h: number): number => 12 * pcm + Math.log10(h);

/** Highest index of each group; the index counts to one decimal. */
const highestIndex: Readonly<Record<Group, number>> = { A: 3.0, B: 3.5, C: 4.0, D: 4.5, E: 5.0, F: 5.5, G: 7.0 };

/** To one decimal, as the groups are printed. */
export const roundedIndex = (index: number): number => Math.round(steady(index * 10)) / 10;

/** Undefined above 7.0: the method has no group for it. */
export const groupByIndex = (index: number): Group | undefined =>
  groups.find((group) => roundedIndex(index) <= highestIndex[group]);

const columns = [0.18, 0.23, 0.28, 0.33, 0.38] as const;
const lookUp: Readonly<Record<HydrogenLevel['name'], string>> = { H1: 'ABCDE', H2: 'BCDEF', H3: 'CDEFG' };

/** The group of the printed table, with the Pcm that its column is below; undefined where there is no column for it. */
export function groupByTable(pcm: number, level: HydrogenLevel['name']): { group: Group; below: number } | undefined {
  const column = columns.findIndex((below) => steady(pcm) < below);
  if (column === -1) return undefined;
  return { group: lookUp[level][column] as Group, below: columns[column]! };
}

export const higherGroup = (a: Group, b: Group): Group => (a > b ? a : b);
