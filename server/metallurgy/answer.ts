/**
 * The shape of the answer to "how hot, and why": every method with its working, and what governs.
 * Plain data, the same on the command line, on the screen, in the report and in the judge.
 */
import type { UnitSystem } from '../measure/units.ts';

export type MethodId = string;

/** A reported, bounded or derived number that went into a formula. */
export interface WorkingInput {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** Where it comes from: "heat certificate 4711", "stated bound", "class H5". */
  readonly from: string;
}

export interface WorkingTerm {
  readonly name: string;
  readonly formula: string;
  readonly value: number;
  readonly unit: string;
}

/** How well a number is known; 'entered': a person read it off a chart and stands for it. */
export type Status = 'verified' | 'second-hand' | 'from memory' | 'entered';
export type EquivalentId = string;

export interface Equivalent {
  /** 'CE', 'CET', 'Pcm'; see metallurgy/equivalents. */
  readonly id: EquivalentId;
  readonly name: string;
  /** Id of the part, or 'weld metal'. */
  readonly part: string;
  /** In percent, of the analysis that asks for most. Absent where any analysis lacks an element. */
  readonly value?: number;
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  /** Elements that the formula needs and the paper does not give. */
  readonly missing: readonly string[];
  /** In words, one each: contents outside the range of composition. The value is then arithmetic only. */
  readonly outOfRange: readonly string[];
  /** Whose range of composition it is and how well it is known, in words. */
  readonly rangeOf: string;
  /** Elements that the range names and no paper reports, so that the range is not fully checked. */
  readonly unchecked: readonly string[];
  readonly source: string;
  readonly status: Status;
}

export interface MethodAnswer {
  readonly id: MethodId;
  readonly title: string;
  readonly edition: string;
  /**
   * What it may do on this joint, see roleOn in method.ts. A code minimum is the table of the chosen code: it
   * raises, and never governs alone. A method for comparison never governs and never warns.
   */
  readonly role: 'may govern' | 'code minimum' | 'comparison only';
  /** The role in words, with its reason: "not of the chosen code (AWS D1.1)". */
  readonly standing: string;
  readonly part: string;
  /** 'extended': computed outside its range, may govern only once a named person accepts it. */
  readonly applicable: 'yes' | 'extended' | 'no';
  /** In words: why not, or what is out of range. Empty for a plain yes. */
  readonly reason: string;
  /** Facts to ask for, in words. Not empty only where applicable is 'no' for want of them. */
  readonly missing: readonly string[];
  /** What the number rests on that nobody stated, one sentence each. */
  readonly flags: readonly string[];
  /** What else the source says here, or how the number was found, one sentence each. Nothing is asked for by it. */
  readonly notes?: readonly string[];
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  /** Addends of the formula, which sum to computedCelsius, or its steps. Empty where there is nothing to show. */
  readonly terms: readonly WorkingTerm[];
  /** The formula's own result, also where it is so low that no preheat is needed. Absent where there is no number. */
  readonly computedCelsius?: number;
  /** As computed, not rounded. Absent where there is no number, or no preheat is needed. */
  readonly preheatMinimumCelsius?: number;
  readonly noPreheatNeeded: boolean;
  /** A value out of a table: it stands as it is and is not rounded up. */
  readonly tabulated: boolean;
  /** What it shows where it gives no temperature by its nature: "cools to 100 °C in 125 s or more". */
  readonly indication?: string;
  readonly source: string;
  readonly status: Status;
}

/** Why the governing value governs. */
export type GoverningKind =
  | 'procedure'
  | 'code floor'
  | 'binding calculation'
  | 'highest method'
  | 'no preheat needed'
  | 'none';

export interface Governing {
  readonly kind: GoverningKind;
  /** Highest value that an applicable (or accepted) method computed, not rounded. */
  readonly computedCelsius?: number;
  /**
   * The value that is judged. A computed one is rounded up to the next 5 C; a procedure's and a code's stand as
   * they are. For 'no preheat needed' it is 20: dry and at least 20 C (common practice). Absent for 'none'.
   */
  readonly preheatMinimumCelsius?: number;
  /** In words, ready to be shown: what governs, how it was rounded or raised, or what to do where nothing governs. */
  readonly because: string;
}

export interface RequirementWarning {
  readonly kind:
    | 'procedure below calculation'
    | 'extended range not accepted'
    | 'minimum above maximum interpass'
    | 'code minimum below calculation'
    | 'missing fact'
    | 'out of range';
  readonly message: string;
  /** Wants a named answer (an 'accept' act). */
  readonly wantsAnswer: boolean;
  readonly method?: MethodId;
}

export interface Requirement {
  /** Unit system of the job; the sentences below are in it. The working stays in the units of its formulas. */
  readonly units: UnitSystem;
  readonly equivalents: readonly Equivalent[];
  readonly methods: readonly MethodAnswer[];
  readonly governing: Governing;
  readonly warnings: readonly RequirementWarning[];
}

/** What a named person has accepted; it changes what may govern. */
export interface Acceptance {
  readonly subject: 'extended range' | 'procedure below calculation';
  readonly method?: MethodId;
  readonly who: string;
}
