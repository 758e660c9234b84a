/** Two ends of something that is not known more closely. Both are always shown; one number out of it is never taken. */
export interface Span {
  readonly lowest: number;
  readonly highest: number;
}

export const spanOf = (values: readonly number[]): Span => ({
  lowest: Math.min(...values),
  highest: Math.max(...values),
});
