/**
 * The shape of the answer to "how hot, and why": every method with its working, and what governs.
 * Plain data, the same on the command line, on the screen, in the report and in the judge.
 */

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

export interface Equivalent {
  readonly id: 'CE' | 'CET' | 'Pcm';
  readonly part: string;
  /** Absent where an element is missing or a composition is out of range. */
  readonly value?: number;
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  /** Elements that the formula needs and the paper does not give. */
  readonly missing: readonly string[];
  readonly source: string;
  readonly status: 'verified' | 'second-hand' | 'from memory';
}

export interface MethodAnswer {
  readonly id: MethodId;
  readonly edition: string;
  readonly part: string;
  /** 'extended': computed outside its range, may govern only once a named person accepts it. */
  readonly applicable: 'yes' | 'extended' | 'no';
  /** In words: why not, or what is out of range. Empty for a plain yes. */
  readonly reason: string;
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  readonly terms: readonly WorkingTerm[];
  /** As computed, not rounded. Absent where there is no number, or no preheat is needed. */
  readonly preheatMinimumCelsius?: number;
  readonly noPreheatNeeded: boolean;
  readonly source: string;
  readonly status: 'verified' | 'second-hand' | 'from memory';
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
  /** The value that is judged. A computed one is rounded up to the next 5 C; a procedure's stands as it is. Absent for 'none'. */
  readonly preheatMinimumCelsius?: number;
  /** One sentence. */
  readonly because: string;
}

export interface RequirementWarning {
  readonly kind:
    | 'procedure below calculation'
    | 'extended range not accepted'
    | 'minimum above maximum interpass'
    | 'missing fact'
    | 'out of range';
  readonly message: string;
  /** Wants a named answer (an 'accept' act). */
  readonly wantsAnswer: boolean;
  readonly method?: MethodId;
}

export interface Requirement {
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
