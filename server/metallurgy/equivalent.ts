/**
 * A carbon equivalent with its working. Of several analyses the one that gives the highest value counts; where
 * one of them lacks an element the highest is not known, and there is no value: the element is asked for.
 */
import type { Analysis, Element } from '../weld/composition.ts';
import { analysisName, content } from './analysis.ts';
import type { Equivalent, EquivalentId, Status, WorkingInput } from './answer.ts';
import { plain, steady } from './number.ts';

export interface EquivalentDefinition {
  readonly id: EquivalentId;
  readonly name: string;
  readonly formula: string;
  readonly needs: readonly Element[];
  /** Mass fractions in percent in, percent out. Must rise with every element, so that an upper bound is on the safe side. */
  readonly compute: (of: (element: Element) => number) => number;
  /** Lowest and highest content, percent, ends inside. */
  readonly range: Readonly<Partial<Record<Element, readonly [minimum: number, maximum: number]>>>;
  /** Whose range it is and how well it is known, in words. */
  readonly rangeOf: string;
  readonly source: string;
  readonly status: Status;
}

export function equivalent(definition: EquivalentDefinition, part: string, analyses: readonly Analysis[]): Equivalent {
  const worked = analyses.map((analysis) => work(definition, analysis, analyses));
  const missing = analyses.length === 0 ? definition.needs : unique(worked.flatMap((one) => one.missing));
  const highest = worked.reduce<Worked | undefined>(
    (most, one) => (most === undefined || (one.value ?? -1) > (most.value ?? -1) ? one : most),
    undefined,
  );
  const known = missing.length === 0 && highest?.value !== undefined;
  return {
    id: definition.id,
    name: definition.name,
    part,
    ...(known ? { value: highest.value } : {}),
    formula: definition.formula,
    inputs: highest?.inputs ?? [],
    missing,
    outOfRange: unique(analyses.flatMap((analysis) => outOfRange(definition, analysis, analyses))),
    rangeOf: definition.rangeOf,
    unchecked: unchecked(definition, analyses),
    source: definition.source,
    status: definition.status,
  };
}

interface Worked {
  readonly inputs: readonly WorkingInput[];
  readonly missing: readonly Element[];
  readonly value?: number;
}

function work(definition: EquivalentDefinition, analysis: Analysis, all: readonly Analysis[]): Worked {
  const found = new Map<Element, WorkingInput>();
  for (const element of definition.needs) {
    const input = content(analysis, all, element);
    if (input !== undefined) found.set(element, input);
  }
  const inputs = [...found.values()];
  const missing = definition.needs.filter((element) => !found.has(element));
  if (missing.length > 0) return { inputs, missing };
  const value = definition.compute((element) => found.get(element)!.value);
  return { inputs, missing, value };
}

function outOfRange(definition: EquivalentDefinition, analysis: Analysis, all: readonly Analysis[]): string[] {
  return rangeElements(definition).flatMap((element) => {
    const [minimum, maximum] = definition.range[element]!;
    const input = content(analysis, all, element);
    if (input === undefined) return [];
    const value = steady(input.value);
    if (value >= minimum && value <= maximum) return [];
    const side = value < minimum ? `below ${minimum}` : `above ${maximum}`;
    const where = all.length > 1 ? ` in ${analysisName(analysis, all)}` : '';
    return [`${element} ${plain(value)} %${where} is ${side} %`];
  });
}

const unchecked = (definition: EquivalentDefinition, analyses: readonly Analysis[]): Element[] =>
  rangeElements(definition).filter(
    (element) =>
      !definition.needs.includes(element) &&
      analyses.some((analysis) => content(analysis, analyses, element) === undefined),
  );

const rangeElements = (definition: EquivalentDefinition): Element[] => Object.keys(definition.range) as Element[];
const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];
