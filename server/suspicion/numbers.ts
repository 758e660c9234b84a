/**
 * Every number by which a probe becomes suspect, with where it comes from. "Own choice" is said where the trade has none;
 * what such a choice costs in time and in false findings is measured (DETECTION.md). They are part of the rules that a
 * record is judged by.
 */
export const numbers = {
  /** Bounds of what is remembered of a probe. */
  blockAtLeast: 10_000,
  blockPeriods: 2,
  blocksKept: 40,
  minute: 60_000,
  minutesKept: 240,
  readingsKept: 128,

  /** A sign that is not seen again is over after so long; one that shows itself only now and then, later. Own choice. */
  overAfter: 120_000,
  rareOverAfter: 1_800_000,

  /** Readings of a sound probe that stays in place differ by less than this from the line through the two before: three times
   *  the expanded uncertainty of an ordinary chain (2.8 K for type K, class 1 wire and cable). Steel bends far less in a second. */
  jump: 9_000,
  /** Nearer to the groove than this a passing arc warms the place within seconds, millimetres. Own choice. */
  nearArcMillimetres: 40,
  /** So many jumps within the time make a loose contact. Own choice. */
  looseWithin: 1_800_000,
  loosePossible: 3,
  looseClear: 8,

  /** Thousandths of a kelvin for a tenth of a microvolt, type K (41 microvolts a kelvin, IEC 60584-1); coarse enough for all base metals. */
  kelvinPerDeciMicrovolt: 2.4,

  /** Equal numbers one after the other. Noise this many steps wide makes a run of them impossible; own choice of the run. */
  stuckNoiseSteps: 2,
  stuckReadings: 30,
  stuckAtLeast: 30_000,
  /** Where the noise is no help it takes so long, and the others have to have moved by so much meanwhile, and by so many steps. Own choice. */
  stuckWithoutNoise: 600_000,
  stuckOthersMoved: 20_000,
  stuckOthersSteps: 6,

  /** An input without a thermocouple, or shorted at its terminals, gives no voltage: it reads the terminals. Tenths of a microvolt
   *  (input offset of usual converters is below 8 microvolts). */
  deadVolts: 80,
  /** Others have to be this much warmer than the terminals before that tells anything, thousandths of a kelvin. Own choice. */
  deadOthersWarmer: 15_000,
  /** It follows less than this share of what the others rose, and they rose so much. Own choice. */
  flatShare: 0.05,
  flatOthersRose: 40_000,

  /** A converter part whose data line hangs high: all bits set are -0.25 degrees, thousandths (datasheets of 14-bit parts). */
  allOnesReported: -250,
  /** The same as a voltage: cold junction -0.0625 degrees, and 0.1875 K below it at 41.276 microvolts a kelvin, tenths. */
  allOnesTerminals: -62,
  allOnesVolts: -77,
  /** One clock edge too many doubles reading and terminals alike; within this share of twice. */
  doubledWithin: 0.04,
  /** Doubling is told where a reading is at least this warm, thousandths. */
  doubledFrom: 10_000,
  busTimes: 3,
} as const;
