/**
 * Which value is judged.
 *
 * With a procedure bound, its value, raised only by a mandatory floor of the code or by a calculation that the
 * job declares binding. Without one, the highest applicable method over all parts, and the code floor. A part
 * without any number leaves the joint without one: the more demanding of two cannot be known from one. A code
 * floor alone never governs: it says how cold a weld may never be, not how warm this one must be.
 */
import { type UnitSystem, unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Acceptance, Governing, GoverningKind, MethodAnswer } from './answer.ts';
import { degrees, noPreheatCelsius, roundedUp, steady } from './number.ts';

interface Candidate {
  readonly kind: GoverningKind;
  readonly celsius: number;
  readonly because: string;
}

export function governing(
  joint: Joint,
  answers: readonly MethodAnswer[],
  acceptances: readonly Acceptance[],
): Governing {
  const usable = answers.filter((one) => mayGovern(one, acceptances));
  const highest = highestOf(usable);
  const computed = highest === undefined ? {} : { computedCelsius: highest.computedCelsius! };
  const failed = silentBinding(joint, answers);
  if (failed !== undefined) return { kind: 'none', ...computed, because: failed };
  const procedure = procedureCandidate(joint);
  const first = procedure ?? methodCandidate(joint, answers, usable);
  if (typeof first === 'string') return { kind: 'none', ...computed, because: first };
  const binding = procedure === undefined ? [] : bindingCandidates(joint, usable);
  const raised = [...binding, ...floorCandidates(joint, answers)].filter((one) => one.celsius > first.celsius);
  const top = raised.reduce((most, one) => (one.celsius > most.celsius ? one : most), first);
  const because = top === first ? `${first.because}.` : `${top.because}; it is above ${lower(first, unitsOf(joint))}.`;
  return { kind: top.kind, ...computed, preheatMinimumCelsius: top.celsius, because };
}

/** A plain yes, or an extended one that a named person has accepted. */
const mayGovern = (one: MethodAnswer, acceptances: readonly Acceptance[]): boolean =>
  one.role === 'may govern' &&
  one.computedCelsius !== undefined &&
  (one.applicable === 'yes' || (one.applicable === 'extended' && acceptanceOf(one, acceptances) !== undefined));

/** An acceptance that names no method speaks of every one. */
export const acceptanceOf = (one: MethodAnswer, acceptances: readonly Acceptance[]): Acceptance | undefined =>
  acceptances.find(
    (acceptance) =>
      acceptance.subject === 'extended range' && (acceptance.method === undefined || acceptance.method === one.id),
  );

export const highestOf = (answers: readonly MethodAnswer[]): MethodAnswer | undefined =>
  answers.reduce<MethodAnswer | undefined>(
    (most, one) =>
      one.computedCelsius !== undefined && one.computedCelsius > (most?.computedCelsius ?? -Infinity) ? one : most,
    undefined,
  );

/** A computed value is rounded up; one out of a table or off a chart is judged as it stands; none needed is 20. */
const judged = ({ computedCelsius, tabulated, noPreheatNeeded }: MethodAnswer, units: UnitSystem): number => {
  if (noPreheatNeeded) return noPreheatCelsius;
  return tabulated ? steady(computedCelsius!) : roundedUp(computedCelsius!, units);
};

const roundedTo = (units: UnitSystem, celsius: number): string =>
  `rounded up to the next ${units === 'inch' ? '10 °F' : '5 °C'}: ${degrees(celsius, units)}`;

/**
 * The one that asks for most as it would be judged, then as computed. By the computed value alone a table's 144
 * would stand before a formula's 143.7, which is judged as 145: a requirement that falls where a method rises.
 */
const mostDemanding = (answers: readonly MethodAnswer[], units: UnitSystem): MethodAnswer | undefined =>
  [...answers].sort((a, b) => judged(b, units) - judged(a, units) || b.computedCelsius! - a.computedCelsius!)[0];

export const isBinding = (joint: Joint, one: MethodAnswer): boolean => joint.bindingMethods?.includes(one.id) ?? false;

function procedureCandidate(joint: Joint): Candidate | undefined {
  const { procedure } = joint;
  if (procedure?.preheatMinimumCelsius === undefined) return undefined;
  const celsius = procedure.preheatMinimumCelsius;
  const because = `Procedure ${procedure.id} revision ${procedure.revision} asks for ${degrees(celsius, unitsOf(joint))}; with a procedure bound its value is judged as it stands`;
  return { kind: 'procedure', celsius, because };
}

/** The highest applicable method, or in words why there is none. */
function methodCandidate(
  joint: Joint,
  answers: readonly MethodAnswer[],
  usable: readonly MethodAnswer[],
): Candidate | string {
  const units = unitsOf(joint);
  const highest = mostDemanding(usable, units);
  const uncovered = joint.parts.filter((part) => !usable.some((one) => one.part === part.id));
  if (uncovered.length > 0 || highest === undefined) return nothing(joint, answers, uncovered);
  const value = highest.computedCelsius!;
  const which = `${highest.title} for part ${highest.part}`;
  if (highest.noPreheatNeeded) {
    return {
      kind: 'no preheat needed',
      celsius: noPreheatCelsius,
      because: `No preheat needed: ${which} gives ${degrees(value, units)}, not above ${degrees(noPreheatCelsius, units)}. The part must still be dry and at least ${degrees(noPreheatCelsius, units)} (common practice), and that is what is judged`,
    };
  }
  const celsius = judged(highest, units);
  const stands = highest.tabulated
    ? 'and a value out of a table or off a chart is judged as it stands'
    : steady(value) === steady(celsius)
      ? `a multiple of ${units === 'inch' ? '10 °F' : '5 °C'} as it stands`
      : roundedTo(units, celsius);
  const others = joint.parts.filter(({ id }) => id !== highest.part);
  const isMost = others.every(({ id }) => usable.every((one) => one.part !== id || one.computedCelsius! < value));
  const chosen = others.length > 0 && isMost ? ', the most demanding of the parts' : '';
  return { kind: 'highest method', celsius, because: `${which} gives ${degrees(value, units)}${chosen}, ${stands}` };
}

function nothing(joint: Joint, answers: readonly MethodAnswer[], uncovered: Joint['parts']): string {
  const parts = uncovered.map((part) => part.id);
  const of = answers.filter((one) => one.role === 'may govern' && parts.includes(one.part));
  const floors = floorCandidates(joint, answers).map(
    (one) => ` ${one.because}: a lower bound only, which does not answer for this joint.`,
  );
  const floorWords = [...new Set(floors)].join('');
  const head = `No minimum can be given for part ${parts.join(', ')}.`;
  const reasons = [...new Set(of.map((one) => `${one.title}: ${one.reason}`))].join('. ');
  const next = of.some((one) => one.applicable === 'extended')
    ? 'A named person may accept the extended range, or bind a qualified procedure.'
    : of.some((one) => one.missing.length > 0)
      ? 'Enter what is missing, or bind a qualified procedure.'
      : 'Consult the qualified welding procedure and the preheat rules of the governing code, and bind the procedure.';
  if (of.length === 0) {
    const chosen = joint.codeSet === undefined ? '' : ` of ${joint.codeSet}`;
    return `${head} No method${chosen} is worked for it. ${next}${floorWords}`;
  }
  return `${head} ${reasons}. ${next}${floorWords}`;
}

/** A binding calculation that gives no number: the minimum is then unknown, with or without a procedure. */
function silentBinding(joint: Joint, answers: readonly MethodAnswer[]): string | undefined {
  for (const id of joint.bindingMethods ?? []) {
    const own = answers.filter((one) => one.id === id && one.role === 'may govern');
    if (own.length === 0) {
      return `The job declares the calculation "${id}" binding, and there is no such method that may govern. Correct its id or take it off the list.`;
    }
    const silent = own.find((one) => one.computedCelsius === undefined);
    if (silent !== undefined) {
      const why = silent.indication ?? silent.reason;
      return `The job declares ${silent.title} binding, and it gives no number for part ${silent.part}: ${why}. Enter what it needs, or have the job withdraw it.`;
    }
  }
  return undefined;
}

function bindingCandidates(joint: Joint, usable: readonly MethodAnswer[]): Candidate[] {
  return usable
    .filter((one) => isBinding(joint, one) && one.preheatMinimumCelsius !== undefined)
    .map((one) => {
      const units = unitsOf(joint);
      const celsius = judged(one, units);
      const rounded = steady(celsius) === steady(one.preheatMinimumCelsius!) ? '' : `, ${roundedTo(units, celsius)}`;
      const because = `The job declares ${one.title} binding; for part ${one.part} it gives ${degrees(one.preheatMinimumCelsius!, units)}${rounded}`;
      return { kind: 'binding calculation' as const, celsius, because };
    });
}

/** Floors never govern alone: the one that a person entered, and the row of the chosen code's own table. */
function floorCandidates(joint: Joint, answers: readonly MethodAnswer[]): Candidate[] {
  const floor = (source: string, celsius: number): Candidate => ({
    kind: 'code floor',
    celsius,
    because: `${source} sets a mandatory floor of ${degrees(celsius, unitsOf(joint))}`,
  });
  const entered =
    joint.codeFloor === undefined ? [] : [floor(joint.codeFloor.source, joint.codeFloor.preheatMinimumCelsius)];
  const tables = answers
    .filter((one) => one.role === 'code minimum' && one.computedCelsius !== undefined)
    .map((one) => floor(`${one.title}, for part ${one.part},`, one.computedCelsius!));
  return [...entered, ...tables];
}

const lower = (first: Candidate, units: UnitSystem): string =>
  first.kind === 'procedure'
    ? `the procedure's ${degrees(first.celsius, units)}`
    : `the ${degrees(first.celsius, units)} that is calculated`;
