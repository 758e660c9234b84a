/** A welder's qualification in words. */
import type { Qualification } from '../weld/qualification.ts';

export const qualificationText = (each: Qualification): string => {
  const { standard, processes, range, certificate, validUntil, confirmedOn, confirmEveryMonths } = each;
  const days = [
    ...(validUntil === undefined ? [] : [`valid until ${validUntil}`]),
    ...(confirmEveryMonths === undefined
      ? []
      : [
          `${confirmedOn === undefined ? 'not confirmed' : `confirmed ${confirmedOn}`}, every ${confirmEveryMonths} months`,
        ]),
  ];
  return [`${standard}, process ${processes.join(', ')}: ${range}`, `certificate ${certificate}`, ...days].join('; ');
};
