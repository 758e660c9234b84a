/** Which facts a chosen code goes by, so that the form asks for them in plain sight. Nothing here is required: the method itself says what it lacks. */

export interface CodeAsks {
  readonly restraint: boolean;
  readonly awsCategory: boolean;
  /** P-number and tensile strength. */
  readonly pNumber: boolean;
}

export const codeAsks = (codeSet: string): CodeAsks => ({
  restraint: codeSet === 'AWS D1.1',
  awsCategory: codeSet === 'AWS D1.1',
  pNumber: codeSet.startsWith('ASME'),
});
