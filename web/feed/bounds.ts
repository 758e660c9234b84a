/**
 * Within what time the screen says that it does not see, each kind in its own words. All are this project's own
 * choice, in milliseconds; none of them can change a verdict.
 */
export const blindBounds = {
  /** No word from the station, though the line stands. A broken line is said in the moment in which it is known. */
  noWord: 3_000,
  /** Periods of a probe after which its newest reading is old. */
  oldPeriods: 3,
  /** A joint that is looked at for so long and has no reading at all has no data. */
  noData: 3_000,
  /** The station judges each open joint every second; longer without, and what stands here is history. */
  notJudged: 5_000,
  /** Clocks of device and station: people do not compare two clocks more closely, and networks set them within it. */
  clocksApart: 30_000,
  /** How long a step of the station's clock is spoken of. */
  clockStepTold: 3_600_000,
  /** In the background for less is a glance aside. */
  away: 5_000,
  /** The page moves its own clock four times a second: such a gap means that it did not run. */
  stoodStill: 3_000,
  /** How long it is said after the page has caught up. */
  awayTold: 20_000,
  /** After so long without its own pulse the page is covered, drawn by the part of the browser that still runs. Stands in still.css too. */
  covered: 5_000,
} as const;

/** A part of the page's own program that did not come is asked for again after so long, milliseconds. */
export const partAgainMilliseconds = 3_000;

/** How often a touch of the screen is told to the station, so that a sign-on goes on; and when its end is told. Own choices. */
export const touchEvery = 20_000;
export const signOffWarning = 60_000;
