/** Letter designations of IEC 60584-1 that this station reads. */
export const thermocoupleTypes = ['K', 'J', 'T', 'E', 'N', 'R', 'S', 'B'] as const;
export type ThermocoupleType = (typeof thermocoupleTypes)[number];

/**
 * Degrees Celsius in which a reading of the type is believed: the range over which NIST SRD 60 gives an
 * inverse function. Below it the voltage hardly changes with temperature; type B's does not even name one
 * temperature below about 42 °C.
 */
export const usableRange: Readonly<Record<ThermocoupleType, { readonly lowest: number; readonly highest: number }>> = {
  K: { lowest: -200, highest: 1372 },
  J: { lowest: -210, highest: 1200 },
  T: { lowest: -200, highest: 400 },
  E: { lowest: -200, highest: 1000 },
  N: { lowest: -200, highest: 1300 },
  R: { lowest: -50, highest: 1768 },
  S: { lowest: -50, highest: 1768 },
  B: { lowest: 250, highest: 1820 },
};

/** True if a temperature in degrees Celsius lies in the usable range of the type, its ends included. */
export const isUsable = (type: ThermocoupleType, celsius: number): boolean =>
  celsius >= usableRange[type].lowest && celsius <= usableRange[type].highest;
