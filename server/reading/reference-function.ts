/** The form of the ITS-90 reference functions: degrees Celsius, millivolts, reference junction at 0 °C. */

/** E(t) = sum of c[i] t^i, and for type K above 0 °C plus height * exp(rate * (t - centre)^2). */
export interface DirectRange {
  readonly from: number;
  readonly to: number;
  readonly c: readonly number[];
  readonly gauss?: { readonly height: number; readonly rate: number; readonly centre: number };
}

/** t = sum of d[i] E^i, within some hundredths of a degree: where Newton's method begins. For E below the bound. */
export interface SeedRange {
  readonly below: number;
  readonly d: readonly number[];
}

export interface ReferenceFunction {
  readonly direct: readonly DirectRange[];
  readonly seed: readonly SeedRange[];
}
