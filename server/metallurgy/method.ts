/**
 * A published way to a minimum preheat. Each is one small file in methods/ that declares what it needs, its
 * range, source and status, and works one part of the joint; methods/list.ts names it in one line.
 */
import type { CodeSet } from '../weld/code.ts';
import type { Joint } from '../weld/joint.ts';
import type { Part } from '../weld/part.ts';
import type { Equivalent, EquivalentId, MethodAnswer, MethodId, Status, WorkingInput, WorkingTerm } from './answer.ts';
import type { Fact } from './fact.ts';
import { noPreheatCelsius, steady } from './number.ts';
import type { Range } from './range.ts';

export interface Method {
  readonly id: MethodId;
  readonly title: string;
  readonly edition: string;
  /** The role that it may have at most; see roleOn. */
  readonly role: MethodAnswer['role'];
  /** Codes under which it may govern, or whose table it is. Empty for a method that only compares. */
  readonly codeSets: readonly CodeSet[];
  /** Rests on hydrogen in ferritic weld metal: says nothing of austenitic or nickel weld metal. */
  readonly ferriticOnly: boolean;
  /** Its values stand in a table and are not rounded up. */
  readonly tabulated?: true;
  /** Facts that it alone asks for. While they are absent and no code asks for the method, it is not missed. */
  readonly ownFacts?: (facts: PartFacts) => readonly string[];
  /** Its code offers it beside another method: without its own facts it is not missed under the code either. */
  readonly offered?: true;
  readonly formula: string;
  /** The facts it asks for, in words. */
  readonly needs: readonly string[];
  readonly range: readonly Range[];
  readonly source: string;
  readonly status: Status;
  readonly work: (facts: PartFacts) => Outcome;
}

/** What a method may look at: one part, with the facts of the joint that every method shares. */
export interface PartFacts {
  readonly joint: Joint;
  readonly part: Part;
  readonly hydrogen: Fact;
  readonly heatInput: Fact;
  /** Equivalent of this part's metal. */
  readonly equivalent: (id: EquivalentId) => Equivalent;
  /** Equivalent of the weld metal; undefined where its analysis is not given. */
  readonly weldMetal: (id: EquivalentId) => Equivalent | undefined;
}

export type Outcome =
  | { readonly kind: 'asks'; readonly missing: readonly string[]; readonly inputs: readonly WorkingInput[] }
  | { readonly kind: 'refuses'; readonly reason: string; readonly inputs: readonly WorkingInput[] }
  | {
      readonly kind: 'computes';
      readonly celsius: number;
      readonly inputs: readonly WorkingInput[];
      readonly terms: readonly WorkingTerm[];
      readonly flags: readonly string[];
      /** What is beyond the validated range, one phrase each; empty for a plain yes. */
      readonly extended: readonly string[];
      /** The code recommends this row and does not require it. */
      readonly recommended?: true;
      readonly notes?: readonly string[];
      /** Where this row or reading is known less well, or otherwise, than the method as a whole. */
      readonly status?: Status;
    }
  /** Shows an index or a time, and no temperature by its nature. */
  | {
      readonly kind: 'indicates';
      readonly indication: string;
      readonly inputs: readonly WorkingInput[];
      readonly terms: readonly WorkingTerm[];
      readonly flags: readonly string[];
      readonly notes?: readonly string[];
    };

export function answer(method: Method, facts: PartFacts): MethodAnswer {
  const outcome = foreignWeldMetal(method, facts) ?? method.work(facts);
  const head = {
    id: method.id,
    title: method.title,
    edition: method.edition,
    ...roleOn(method, facts, outcome),
    part: facts.part.id,
    formula: method.formula,
    inputs: outcome.inputs,
    tabulated: method.tabulated ?? false,
    source: method.source,
    status: method.status,
  };
  const silent = { missing: [], flags: [], terms: [], noPreheatNeeded: false };
  switch (outcome.kind) {
    case 'asks':
      return { ...head, ...silent, applicable: 'no', reason: asking(outcome.missing), missing: outcome.missing };
    case 'refuses':
      return { ...head, ...silent, applicable: 'no', reason: outcome.reason };
    case 'indicates': {
      const { indication, terms, flags } = outcome;
      return { ...head, ...silent, applicable: 'yes', reason: '', indication, terms, flags, ...notesOf(outcome) };
    }
    case 'computes': {
      const none = steady(outcome.celsius) <= noPreheatCelsius;
      return {
        ...head,
        ...notesOf(outcome),
        ...(outcome.status === undefined ? {} : { status: outcome.status }),
        applicable: outcome.extended.length > 0 ? 'extended' : 'yes',
        reason: outcome.extended.join('; '),
        missing: [],
        flags: outcome.flags,
        terms: outcome.terms,
        computedCelsius: outcome.celsius,
        ...(none ? {} : { preheatMinimumCelsius: outcome.celsius }),
        noPreheatNeeded: none,
      };
    }
  }
}

/**
 * What a method may do on this joint. With a code chosen only its own methods govern and only its table is a
 * floor; with none chosen every method that applies may govern and no table is a floor. What the job declares
 * binding may always govern.
 */
function roleOn(method: Method, facts: PartFacts, outcome: Outcome): Pick<MethodAnswer, 'role' | 'standing'> {
  const compares = (standing: string) => ({ role: 'comparison only' as const, standing });
  const { joint } = facts;
  if (method.role === 'comparison only') return compares('for comparison only');
  if (method.role === 'may govern' && (joint.bindingMethods?.includes(method.id) ?? false))
    return { role: method.role, standing: 'declared binding by the job' };
  if (outcome.kind === 'indicates') return compares('shows what to look up, and no temperature');
  if (joint.codeSet !== undefined && !method.codeSets.includes(joint.codeSet))
    return compares(`for comparison only: not of the chosen code (${joint.codeSet})`);
  if (outcome.kind === 'computes' && outcome.recommended === true)
    return compares('recommended by the code, not required: for comparison only');
  if (method.role === 'code minimum') {
    if (joint.codeSet === undefined) return compares('for comparison only: no code is chosen');
    return { role: method.role, standing: 'floor of the chosen code' };
  }
  const isAskedFor = joint.codeSet !== undefined && method.offered !== true;
  const lacking = method.ownFacts?.(facts) ?? [];
  if (!isAskedFor && lacking.length > 0) return compares(`not asked for: it needs ${lacking.join('; ')}`);
  return { role: method.role, standing: 'may govern' };
}

/** Hydrogen cracks ferritic weld metal and its heat-affected zone by rules that say nothing of these deposits. */
function foreignWeldMetal(method: Method, { joint }: PartFacts): Outcome | undefined {
  const { deposit } = joint.consumable;
  if (!method.ferriticOnly || deposit === undefined || deposit === 'ferritic') return undefined;
  const reason = `the weld metal is ${deposit === 'nickel' ? 'a nickel alloy' : 'austenitic'}, and a method that goes by hydrogen in ferritic weld metal does not apply to it; the qualified procedure has to state the preheat`;
  return { kind: 'refuses', reason, inputs: [] };
}

const notesOf = ({ notes }: { readonly notes?: readonly string[] }): Pick<MethodAnswer, 'notes'> =>
  notes === undefined || notes.length === 0 ? {} : { notes };
const asking = (missing: readonly string[]): string => `cannot be computed yet; needed: ${missing.join('; ')}`;
