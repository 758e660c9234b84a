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

  /** Readings of a sound probe that stays in place differ by less than this from the line through the two before. Steel bends
   *  far less in a second, and three times the expanded uncertainty of an ordinary chain (2.8 K, type K of class 1) is more. */
  jump: 7_500,
  /** Nearer to the groove than this a passing arc warms the place within seconds, millimetres. Own choice. */
  nearArcMillimetres: 40,
  /** Heat takes x2 / (4 alpha) to come through so many millimetres of steel, 2 s for 10: readings further apart can not
   *  tell there what the arc does to the wire from what it does to the steel, milliseconds. */
  nearArcReadings: 2_000,
  /** So many jumps within the time make a loose contact. Own choice. */
  looseWithin: 1_800_000,
  loosePossible: 3,
  looseClear: 8,
  /** For so long after the arc began or ended a jump is the arc's. Own choice. */
  calmAfterArc: 5_000,

  /** Thousandths of a kelvin for a tenth of a microvolt, type K (41 microvolts a kelvin, IEC 60584-1); coarse enough for all base metals. */
  kelvinPerDeciMicrovolt: 2.4,

  /** Same place, and much the same place on another part, millimetres along the face. Own choice. */
  twinMillimetres: 15,
  peerMillimetres: 30,

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
  /** In one reading, to within this share of it. */
  doubledJump: 0.1,
  /** Doubling is told where a reading is at least this warm, thousandths. */
  doubledFrom: 10_000,
  busTimes: 3,

  /** Terminals do not change so much within seconds: a box warms by some kelvin in half an hour. Own choice. */
  terminalsJump: 3_000,
  /** Where terminals are not told: all probes of a board shift alike by so much at once, to within the share. Own choice. */
  boardShift: 5_000,
  boardShiftWithin: 0.15,

  /** Numbers that are read again: so large a part of them, over so many blocks, while each change is so many steps. Own choice. */
  repeatedShare: 0.45,
  repeatedBlocks: 6,
  repeatedSteps: 3,
  repeatedRuns: 3,
  /** The run that is not over yet is at most so many times as long as the others. Own choice. */
  repeatedLonger: 2,
  /** Variance of how often each is read, as a share of the square of the mean. Own choice. */
  repeatedEven: 0.1,

  /** Noise between readings that steel can not make and a sound input does not have. Converters have 0.03 K; own choice. */
  noise: 800,
  noiseOfFew: 2_400,
  /** And it is so many times that of the others. Own choice. */
  noiseTimes: 3,
  /** With the arc it may have a tenth of a kelvin; so much is a burst, and it is so many times the noise before. Own choice. */
  arcNoise: 2_000,
  arcNoiseNearArc: 6_000,
  arcNoiseTimes: 4,
  arcNoiseBlocks: 2,
  /** A step in the very reading in which the arc began or ended. Heat takes seconds; own choice. */
  arcStep: 4_500,
  arcStepNearArc: 15_000,
  arcStepAlike: 0.4,

  /** A wave that steel can not make: pads of 18 kW/m2 switched on and off each minute move a face by 2 K, q / (k sqrt(omega / alpha)). */
  waveDeviation: 2_500,
  /** It grows with the root of the time: what is slower than this, passes among it, moves steel as far. Own choice. */
  waveLongest: 120_000,
  waveReadingsLongest: 60,
  waveAlike: 0.75,
  waveAgainst: -0.4,

  /** A fall against others, over three blocks: a bead in air falls with 13 to 98 s, steel with minutes. */
  fall: 9_000,
  fallBlocks: 3,
  fallWithin: 30_000,
  /** It has to stay down for so many blocks more. Own choice. */
  fallStaysBlocks: 3,
  /** A fall of which one reading makes this share is a step. Own choice. */
  jumpShare: 0.6,
  /** Falls by at most this share alike are the steel's. Own choice. */
  fallShare: 0.4,
  /** A step down in one reading that stays. Own choice. */
  shortStep: 6_000,
  /** Above others by so much while it is restless. Own choice. */
  flameAbove: 3_000,

  /** Difference of two probes at one place: two of class 2 wire 3.5 K (IEC 60584-1), and as much again for their tips. */
  twinsApart: 7_500,
  /** For so many blocks on end. Own choice. */
  twinsBlocks: 9,
  /** Nearer to one of them by this share of what they are apart the others decide between them. Own choice. */
  twinsDecided: 0.5,
  /** Others of another plate may be warmer or colder by right, and decide only so near. Own choice. */
  twinsDecidedAfar: 0.8,
  twinsAfarFrom: 40_000,
  /** Others must be this much above the terminals before a share of it tells anything. Own choice. */
  shareFrom: 25_000,
  /** An error grew when its share of the rise is by so much larger than it was at half of the rise. Own choice. */
  shareGrew: 1.35,
  /** And it is drift when it grew by this much while the others changed by less. Own choice. */
  driftGrew: 3_000,
  driftMinutes: 15,

  /** Crossed legs: below the terminals by this much, and by so large a part of what others are above them. Own choice. */
  reversedBelow: 5_000,
  reversedShare: 0.3,
  /** Where terminals are not told it has to have begun at the air's temperature. Own choice. */
  coldAtMost: 60_000,

  /** Warmer on the colder face by so much, for so long in blocks. Own choice. */
  swappedApart: 7_500,
  swappedBlocks: 4,
  /** Each fits the other's company to within this share of what it is off from its own; the heated face is the evener. Own choice. */
  swappedFits: 0.5,
  swappedFitsHot: 0.25,
} as const;
