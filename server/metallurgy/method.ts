/**
 * A published way to a minimum preheat. Each is one small file in methods/ that declares what it needs, its
 * range, source and status, and works one part of the joint; methods/list.ts names it in one line.
 */
import type { Joint, Part } from '../weld/joint.ts';
import type { Equivalent, EquivalentId, MethodAnswer, MethodId, Status, WorkingInput, WorkingTerm } from './answer.ts';
import type { Fact } from './fact.ts';
import { noPreheatCelsius, steady } from './number.ts';
import type { Range } from './range.ts';

export interface Method {
  readonly id: MethodId;
  readonly title: string;
  readonly edition: string;
  readonly role: MethodAnswer['role'];
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
    };

export function answer(method: Method, facts: PartFacts): MethodAnswer {
  const outcome = method.work(facts);
  const head = {
    id: method.id,
    title: method.title,
    edition: method.edition,
    role: method.role,
    part: facts.part.id,
    formula: method.formula,
    inputs: outcome.inputs,
    source: method.source,
    status: method.status,
  };
  const silent = { missing: [], flags: [], terms: [], noPreheatNeeded: false };
  switch (outcome.kind) {
    case 'asks':
      return { ...head, ...silent, applicable: 'no', reason: asking(outcome.missing), missing: outcome.missing };
    case 'refuses':
      return { ...head, ...silent, applicable: 'no', reason: outcome.reason };
    case 'computes': {
      const none = steady(outcome.celsius) <= noPreheatCelsius;
      return {
        ...head,
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

const asking = (missing: readonly string[]): string => `cannot be computed yet; needed: ${missing.join('; ')}`;
