/** The codes that a job may go by, and the rules for the wait before testing, each with its edition. */
export const codeSets = ['EN 1011-2', 'AWS D1.1', 'ASME B31.3:2014', 'ASME B31.3:2010', 'ASME B31.1'] as const;
export type CodeSet = (typeof codeSets)[number];

export const waitingEditions = [
  'EN 1090-2:2008',
  'UK structural specification 2007',
  'EN 1011-2:2001',
  'North Sea practice',
  'AWS D1.1',
] as const;
