/**
 * The numbers of this room that could change a verdict, each with its source. Physics stands with the formula that
 * uses it; these are choices: how fine, how thick, how long.
 */
export const bounds = {
  /** Cells through the thickness: the far face within 0.01 K of 100 K of the exact series (computed). */
  cells: 40,
  cellsMaximum: 400,
  /**
   * Thickest wall. Up to here the scheme is checked, and the heated band can be the two to three thicknesses wide
   * that heat going straight through asks for; beyond, a band of 0.9 m is not what a shop lays. Own choice.
   */
  thicknessMaximumMillimetres: 300,
  /** A wall this thick, as a part of the outside radius, is a bar. Own choice. */
  wallOfRadiusMaximum: 0.95,
  /** One step is this part of the wall's time constant. Own choice; tests/bench holds the error it makes. */
  stepsPerTimeConstant: 50,
  /** Temperature at which the wall's own step is taken. */
  stepAtCelsius: 150,
  /**
   * Longest time without a reading of the driving face that a straight line may bridge, in time constants: in a
   * quarter of one (Fourier number 0.1) the far face takes up 5 % of what the near face does (computed). A thin wall
   * forgets a gap quickly, so that the pause a soak may make, 60 s, is bridged in any case. Own choice.
   */
  bridgedTimeConstants: 0.25,
  bridgedSeconds: 60,
  /** A longer gap is crossed with a band that widens to what can have been, up to this many hours. Own choice. */
  gapHoursMaximum: 48,
  /** Most that heats steel for a minute: above pads (to 60 kW/m2) and burners (to 100), about induction. From memory. */
  heaterWattsPerSquareMetre: 200_000,
  /** Colder than any shop floor: such a probe is not reading the part. The same as in the judge. */
  partLowestCelsius: -40,
  /** Noise that a rise may carry, and the time over which it is watched. Own choice. */
  riseMarginKelvin: 5,
  riseWindowSeconds: 60,
  /** A face that may differ from its forecast this many time constants before the probe is doubted. Own choice. */
  doubtedAfterTimeConstants: 3,
  /** How far back readings count for the loss of the far face, in time constants. Common practice. */
  lossTimeConstants: 3,
  /** From here on what was not known of the inside is forgotten between two measured faces: under 3 % is left (computed). Fourier number. */
  insideForgottenFourier: 0.4,
  /** Longest that is looked ahead, in time constants beyond the end of a ramp; after that the wall is as good as steady. */
  lookAheadTimeConstants: 12,
  /** Longest that a trend or a ramp is followed, hours. Own choice. */
  risingHoursMaximum: 48,
  /** Longest cooling that is told, hours. Own choice. */
  coolingHoursMaximum: 48,
} as const;
