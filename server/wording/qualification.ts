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

/** What the station knew of the welder when a pass began; nothing where nobody looked it up. */
export const heldText = (qualifications: readonly Qualification[] | undefined): string[] => {
  if (qualifications === undefined) return [];
  if (qualifications.length === 0) return ['no qualification entered'];
  return [`qualified by ${qualifications.map(({ standard, certificate }) => `${standard} ${certificate}`).join(', ')}`];
};
