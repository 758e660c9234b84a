/** What this room will not compute, as a named value with the reason; the caller says it in its own words or in these. */
export type RefusalKind =
  | 'not a number'
  | 'thickness not covered'
  | 'shape not possible'
  | 'above the range of the properties'
  | 'below what a part can be'
  | 'out of order'
  | 'gap too long'
  | 'rises faster than steel'
  | 'far side not judged'
  | 'heating not possible'
  | 'never at this surface temperature'
  | 'not told by these readings'
  | 'probe or contact suspect';

export interface Refusal {
  readonly refused: RefusalKind;
  /** One sentence with the numbers, for a person. */
  readonly because: string;
}

export const refuse = (refused: RefusalKind, because: string): Refusal => ({ refused, because });

export const isRefusal = (value: unknown): value is Refusal =>
  typeof value === 'object' && value !== null && 'refused' in value;
