/**
 * The heat of welding, as the section that the probes lie in gets it: an arc travels along the joint, passes the middle
 * where the section is, turns at the end and comes back as the next run, as long as it burns. Half of its heat goes
 * into each plate, at the groove's face around the depth of the bead.
 */
import type { Plate } from './plate.ts';

export interface ArcOptions {
  /** What arrives in the steel, both plates together. */
  readonly heatInputKilojoulesPerMillimetre: number;
  readonly travelMillimetresPerSecond: number;
  readonly jointMillimetres: number;
  /** 0 on the front, 1 on the back; half way is the root of a groove that is open to both faces. */
  readonly beadDepth: number;
}

export interface Arc {
  /** A new run begins at the joint's end. */
  burn(on: boolean): void;
  /** Lets time pass and writes what goes into each layer, W for each metre of joint. */
  heat(into: Float64Array, seconds: number): void;
}

/** Deviation of the arc's bell shape along the joint, and of the bead's through the thickness, metres. */
const spread = { along: 0.01, through: 0.006 };

export function createArc(options: ArcOptions, plate: Plate): Arc {
  const joint = options.jointMillimetres / 1000;
  const speed = options.travelMillimetresPerSecond / 1000;
  const wattsInPlate = (options.heatInputKilojoulesPerMillimetre * 1e6 * speed) / 2;
  const depth = options.beadDepth * plate.thickness;
  const bells = new Float64Array(plate.layers).map((_, y) => bell(((y + 0.5) * plate.layer - depth) / spread.through));
  const sum = bells.reduce((all, one) => all + one, 0);
  let burns = false;
  let travelled = 0;
  return {
    burn: (on) => {
      if (on && !burns) travelled = 0;
      burns = on;
    },
    heat: (into, seconds) => {
      // The middle of the step, so that the sum over many steps is the whole of the bell.
      const along = (travelled + (speed * seconds) / 2) % (2 * joint);
      const place = along < joint ? along : 2 * joint - along;
      const away = (place - joint / 2) / spread.along;
      const watts = burns ? (wattsInPlate * bell(away)) / (spread.along * Math.sqrt(2 * Math.PI)) : 0;
      for (let y = 0; y < into.length; y += 1) into[y] = (watts * bells[y]!) / sum;
      if (burns) travelled += speed * seconds;
    },
  };
}

const bell = (away: number): number => Math.exp((-away * away) / 2);
