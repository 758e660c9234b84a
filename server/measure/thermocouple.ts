/** Letter designations of IEC 60584-1 that this station reads. */
export const thermocoupleTypes = ['K', 'J', 'T', 'E', 'N', 'R', 'S', 'B'] as const;
export type ThermocoupleType = (typeof thermocoupleTypes)[number];
