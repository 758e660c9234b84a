/**
 * Table IV of US Navy S9074-AR-GIB-010/278 (public page, verified): the table whose structure ASME B31.1 shares. It
 * is printed in Fahrenheit, inches and ksi by S-number; that S-numbers follow the P-numbers of the same digit is from
 * memory, so that it compares only. Row S-8 asks for no preheat and S-6 has exceptions: neither stands here as a rule.
 */
import { celsiusOfLimit } from '../job-units.ts';
import { asmeTable, type Edge, type Row } from './asme-table.ts';

const inches = (inch: number): Edge => ({ metric: inch * 25.4, inch });
/** 1 ksi in MPa. */
const ksi = 6.894757;
const at = (fahrenheit: number) => ({ fahrenheit, celsius: celsiusOfLimit(fahrenheit) });
const exceptions = 'the table has exceptions of 300, 200 and 60 °F for some martensitic steels: see the table itself';

const rows: readonly Row[] = [
  { pNumbers: ['1'], thicknessAbove: inches(1), carbonAbovePercent: 0.3, ...at(175) },
  { pNumbers: ['1'], ...at(60) },
  { pNumbers: ['3'], thicknessAbove: inches(0.625), ...at(175) },
  { pNumbers: ['3'], tensileAboveMegapascals: 70 * ksi, ...at(175) },
  { pNumbers: ['3'], ...at(60) },
  { pNumbers: ['4'], thicknessAbove: inches(0.5), ...at(250) },
  { pNumbers: ['4'], tensileAboveMegapascals: 60 * ksi, ...at(250) },
  { pNumbers: ['4'], ...at(60) },
  { pNumbers: ['5A', '5B'], tensileAboveMegapascals: 60 * ksi, ...at(400) },
  { pNumbers: ['5A', '5B'], thicknessAbove: inches(0.5), chromiumAbovePercent: 6, ...at(400) },
  { pNumbers: ['5A', '5B'], ...at(300) },
  { pNumbers: ['6'], ...at(400), note: exceptions },
];

export const usNavy278 = asmeTable({
  id: 'us-navy-278',
  title: 'US Navy table IV',
  edition: 'S9074-AR-GIB-010/278, table IV',
  rows,
  source: 'US Navy S9074-AR-GIB-010/278 table IV; its S-numbers taken as the P-numbers of the same digit, from memory',
  status: 'verified',
});
