/**
 * ASME B31.3 table 330.1.1 in the edition of 2010, for older procedures: some values are required, most only
 * recommended. Read from a public copy of the page. The rows of one P-number stand from the special to the general.
 */
import { asmeTable, halfInch, oneInch, type Row } from './asme-table.ts';

const rows: readonly Row[] = [
  { pNumbers: ['1'], thicknessFrom: oneInch, celsius: 79, recommended: true },
  { pNumbers: ['1'], tensileAboveMegapascals: 490, celsius: 79, recommended: true },
  { pNumbers: ['1'], celsius: 10, recommended: true },
  { pNumbers: ['3'], thicknessFrom: halfInch, celsius: 79, recommended: true },
  { pNumbers: ['3'], tensileAboveMegapascals: 490, celsius: 79, recommended: true },
  { pNumbers: ['3'], celsius: 10, recommended: true },
  { pNumbers: ['4'], celsius: 149 },
  { pNumbers: ['5A', '5B', '5C'], celsius: 177 },
  { pNumbers: ['6'], celsius: 149, recommended: true, note: 'maximum interpass temperature 316 °C' },
  { pNumbers: ['7', '8'], celsius: 10, recommended: true },
  { pNumbers: ['9A', '9B'], celsius: 93, recommended: true },
  { pNumbers: ['10I'], celsius: 149, note: 'interpass temperature between 177 and 232 °C' },
  { pNumbers: ['11A-1'], celsius: 10, recommended: true },
  { pNumbers: ['11A-2'], celsius: 10 },
  { pNumbers: ['15E'], celsius: 204 },
  { pNumbers: ['41', '42', '43', '44', '45'], celsius: 10, recommended: true },
];

export const asmeB3132010 = asmeTable({
  id: 'asme-b31-3-2010',
  title: 'ASME B31.3:2010 table 330.1.1',
  edition: 'ASME B31.3, edition of 2010',
  codeSet: 'ASME B31.3:2010',
  rows,
  source: 'ASME B31.3:2010 table 330.1.1',
  status: 'verified',
  recommendedNote: 'recommended; with an ambient temperature below 0 °C the code requires it',
});
