/**
 * What warms a face. Pads lie on a band from the groove's edge and are held by a controller; a torch is a flame of a
 * few centimetres that a person leads to and fro over the band, and takes away once the band is as hot as asked.
 */
import type { Plate } from './plate.ts';

export interface Heater {
  readonly on: boolean;
  readonly setPointCelsius: number;
}

export interface HeaterOptions {
  readonly heating: 'pads' | 'torch';
  /** Highest power, as a mean over the band. */
  readonly heaterWattsPerSquareMetre: number;
  /** From the groove's edge to the heater's edge. */
  readonly bandMillimetres: number;
  /** Where the controller of the pads measures, from the groove's edge, on the face that they heat. */
  readonly controlMillimetres: number;
}

export interface FaceHeater {
  /** The part of each column's face that lies under a pad and is not bare. */
  readonly covered: Float64Array;
  /** Lets time pass and writes what goes into each column's face, W/m2. */
  heat(into: Float64Array, seconds: number, heater: Heater, faceCelsius: Float64Array): void;
}

/** The controller gives full power this far below its set point and none at it, by a thermocouple that follows in so long. */
const control = { bandKelvin: 2, followSeconds: 5 };
/** Deviation of the flame's bell shape, how fast it is led, and how far the band may cool before it comes back. */
const flame = { reach: 0.02, metresPerSecond: 0.03, backAfterKelvin: 8 };

export function createFaceHeater(options: HeaterOptions, plate: Plate): FaceHeater {
  const band = options.bandMillimetres / 1000;
  const inBand = new Float64Array(plate.columns).map((_, x) => Math.min(Math.max(band / plate.column - x, 0), 1));
  return options.heating === 'pads' ? pads(options, plate, inBand) : torch(options, plate, inBand);
}

function pads(options: HeaterOptions, { column, columns }: Plate, inBand: Float64Array): FaceHeater {
  const at = Math.min(Math.floor(options.controlMillimetres / 1000 / column), columns - 1);
  let measured: number | undefined;
  return {
    covered: inBand,
    heat: (into, seconds, { on, setPointCelsius }, faceCelsius) => {
      const there = faceCelsius[at]!;
      measured ??= there;
      measured += ((there - measured) * seconds) / control.followSeconds;
      const short = (setPointCelsius - measured) / control.bandKelvin;
      const power = on ? Math.min(Math.max(short, 0), 1) * options.heaterWattsPerSquareMetre : 0;
      for (let x = 0; x < into.length; x += 1) into[x] = inBand[x]! * power;
    },
  };
}

function torch(options: HeaterOptions, { column }: Plate, inBand: Float64Array): FaceHeater {
  const band = options.bandMillimetres / 1000;
  const strongest = (options.heaterWattsPerSquareMetre * band) / (flame.reach * Math.sqrt(2 * Math.PI));
  const columnsInBand = inBand.reduce((sum, part) => sum + part, 0);
  let led = 0;
  let burns = false;
  return {
    covered: new Float64Array(inBand.length),
    heat: (into, seconds, { on, setPointCelsius }, faceCelsius) => {
      const mean = faceCelsius.reduce((sum, celsius, x) => sum + celsius * inBand[x]!, 0) / columnsInBand;
      if (mean >= setPointCelsius) burns = false;
      else if (mean < setPointCelsius - flame.backAfterKelvin) burns = true;
      if (!on) burns = true;
      led = (led + flame.metresPerSecond * seconds) % (2 * band);
      const centre = led < band ? led : 2 * band - led;
      for (let x = 0; x < into.length; x += 1) {
        const away = ((x + 0.5) * column - centre) / flame.reach;
        into[x] = on && burns ? strongest * Math.exp((-away * away) / 2) : 0;
      }
    },
  };
}
