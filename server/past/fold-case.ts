/**
 * Text as it is compared: capitals, accents and ligatures do not count, whatever the script. Capitals, since they fold what small
 * letters keep apart (the two small sigmas, the long s, the sharp s).
 */
const marks = /\p{M}+/gu;

export const foldCase = (text: string): string =>
  text.normalize('NFKD').replace(marks, '').toUpperCase().normalize('NFKD').replace(marks, '');
