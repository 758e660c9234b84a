/**
 * Limits upward for each part: what is published or practised for the maximum interpass temperature of such a
 * material, beside what the procedure states. Nothing here is applied: the limit that binds is the procedure's.
 */
import { fromFahrenheit, type UnitSystem, unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import type { Citation } from './citation.ts';
import { type InterpassRow, interpassTable } from './interpass-table.ts';
import { degrees, steady } from './number.ts';
import type { Span } from './span.ts';

export interface UpperLimits {
  /** The procedure's maximum interpass temperature: the one that binds. Absent where it states none. */
  readonly statedCelsius?: number;
  readonly parts: readonly UpperLimitsOfPart[];
}

export interface UpperLimitsOfPart {
  readonly part: string;
  readonly suggestions: readonly InterpassSuggestion[];
  /** What to ask for, in words, where nothing can be suggested. */
  readonly missing: readonly string[];
  /** In words: where the procedure or the minimum lies above a suggestion. */
  readonly notes: readonly string[];
}

export interface InterpassSuggestion extends Citation {
  /** Two ends where a range is in use. */
  readonly celsius: Span;
  readonly material: string;
}

export function upperLimits(joint: Joint, minimumCelsius: number | undefined): UpperLimits {
  const stated = joint.procedure?.interpassMaximumCelsius;
  return {
    ...(stated === undefined ? {} : { statedCelsius: stated }),
    parts: joint.parts.map((part) => limitsOf(joint, part, stated, minimumCelsius)),
  };
}

function limitsOf(
  joint: Joint,
  part: Part,
  stated: number | undefined,
  minimum: number | undefined,
): UpperLimitsOfPart {
  const units = unitsOf(joint);
  const suggestions = interpassTable.filter((row) => row.appliesTo(part, joint)).map((row) => suggestion(row, units));
  const asks = part.kind === undefined && part.pNumber === undefined;
  return {
    part: part.id,
    suggestions,
    missing: asks ? ['its kind of material or its P-number'] : [],
    notes: [
      ...(suggestions.length === 0 && !asks
        ? ['no maximum interpass temperature is kept here for this material; the procedure has to state it']
        : []),
      ...suggestions.flatMap((one) => notes(one, stated, minimum, units)),
    ],
  };
}

/** In a job in Fahrenheit the figure that is printed in Fahrenheit counts. */
function suggestion({ appliesTo: _, fahrenheit, ...row }: InterpassRow, units: UnitSystem): InterpassSuggestion {
  if (units === 'metric' || fahrenheit === undefined) return row;
  const { lowest, highest } = fahrenheit;
  return { ...row, celsius: { lowest: fromFahrenheit(lowest), highest: fromFahrenheit(highest) } };
}

function notes(
  one: InterpassSuggestion,
  stated: number | undefined,
  minimum: number | undefined,
  units: UnitSystem,
): string[] {
  const { lowest, highest } = one.celsius;
  const named = `${rangeText(one.celsius, units)} of ${one.source} (${one.material})`;
  const warm = minimum === undefined ? undefined : steady(minimum);
  return [
    ...(stated !== undefined && steady(stated) > steady(highest)
      ? [`the procedure's maximum interpass temperature of ${degrees(stated, units)} is above the ${named}`]
      : []),
    ...(warm !== undefined && warm > steady(highest)
      ? [`the minimum preheat of ${degrees(warm, units)} is above the ${named}: no temperature keeps both`]
      : warm !== undefined && warm > steady(lowest)
        ? [`the minimum preheat of ${degrees(warm, units)} is above the lower end of the ${named}`]
        : []),
  ];
}

/** "200 to 225 °C", or "250 °C", in the units of the job. */
export const rangeText = ({ lowest, highest }: Span, units: UnitSystem): string =>
  lowest === highest ? degrees(lowest, units) : `${degrees(lowest, units).slice(0, -3)} to ${degrees(highest, units)}`;
