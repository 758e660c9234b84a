/**
 * ASME B31.1 paragraph 131.4, from memory. It has the structure of the table of the United States Navy (S9074,
 * table IV), which is verified, and its temperatures are near to that one's. The rows of one P-number stand from
 * the special to the general. P-numbers without a row here are refused: the rest of the paragraph is not known.
 */
import { asmeTable, fiveEighths, halfInch, oneInch, type Row } from './asme-table.ts';

const rows: readonly Row[] = [
  { pNumbers: ['1'], thicknessAbove: oneInch, carbonAbovePercent: 0.3, celsius: 80, fahrenheit: 175 },
  { pNumbers: ['1'], celsius: 10 },
  { pNumbers: ['3'], thicknessAbove: fiveEighths, celsius: 80 },
  { pNumbers: ['3'], tensileAboveMegapascals: 480, celsius: 80 },
  { pNumbers: ['3'], celsius: 10 },
  { pNumbers: ['4'], thicknessAbove: halfInch, celsius: 120 },
  { pNumbers: ['4'], tensileAboveMegapascals: 410, celsius: 120 },
  { pNumbers: ['4'], celsius: 10 },
  { pNumbers: ['5A', '5B'], tensileAboveMegapascals: 410, celsius: 200 },
  { pNumbers: ['5A', '5B'], thicknessAbove: halfInch, chromiumAbovePercent: 6, celsius: 200 },
  { pNumbers: ['5A', '5B'], celsius: 150 },
  { pNumbers: ['6'], celsius: 200 },
  { pNumbers: ['9A'], celsius: 120 },
  { pNumbers: ['9B'], celsius: 150 },
  { pNumbers: ['10I'], celsius: 150 },
  { pNumbers: ['15E'], celsius: 200 },
];

export const asmeB311 = asmeTable({
  id: 'asme-b31-1',
  title: 'ASME B31.1 paragraph 131.4',
  edition: 'ASME B31.1, edition not known',
  codeSet: 'ASME B31.1',
  rows,
  source:
    'ASME B31.1 paragraph 131.4, from memory; same structure as US Navy S9074-AR-GIB-010/278 table IV, which is verified',
  status: 'from memory',
});
