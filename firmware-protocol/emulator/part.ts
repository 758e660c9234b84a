/**
 * The steel under the probes: one plate of the joint as a section, warmed by a heater and by the arc, and cooled by
 * the air at every face that is bare. It is here to be read, and judged by somebody else: it shares neither figures nor
 * reckoning with those who judge.
 */
import { type ArcOptions, createArc } from './arc.ts';
import { createFaceHeater, type Heater, type HeaterOptions } from './heater.ts';
import { createPlate } from './plate.ts';
import { carbonSteel, type EmulatedSteel } from './steel.ts';

export interface FaceLoss {
  readonly convectionWattsPerSquareMetreKelvin: number;
  /** Part of black radiation. */
  readonly emissivity: number;
}

export interface PartOptions extends HeaterOptions, ArcOptions {
  readonly thicknessMillimetres: number;
  /** From the groove's edge to the plate's end, which loses nothing. Absent: so far beyond the heater that it is hardly felt. */
  readonly widthMillimetres?: number;
  readonly steel: EmulatedSteel;
  readonly ambientCelsius: number;
  readonly heatedFace: 'front' | 'back' | 'both';
  readonly frontLoss: FaceLoss;
  readonly backLoss: FaceLoss;
}

/** Oxidised steel in still air. */
export const stillAir: FaceLoss = { convectionWattsPerSquareMetreKelvin: 6, emissivity: 0.8 };
export const noLoss: FaceLoss = { convectionWattsPerSquareMetreKelvin: 0, emissivity: 0 };

export const usualPart: PartOptions = {
  thicknessMillimetres: 70,
  steel: carbonSteel,
  ambientCelsius: 20,
  heatedFace: 'front',
  heating: 'pads',
  heaterWattsPerSquareMetre: 18_000,
  bandMillimetres: 220,
  controlMillimetres: 110,
  frontLoss: stillAir,
  backLoss: stillAir,
  heatInputKilojoulesPerMillimetre: 1.5,
  travelMillimetresPerSecond: 5,
  jointMillimetres: 600,
  beadDepth: 0.5,
};

/** Where a junction sits. depth: 0 on the front face, 1 on the back. distance: from the groove's edge. */
export type EmulatedPlace =
  | {
      readonly at: 'part';
      /** Which of the board's parts; the first unless said. */
      readonly part?: number;
      readonly depth: number;
      readonly distanceMillimetres: number;
    }
  | { readonly at: 'air' };

/** Heat in J for each metre of joint, since the beginning. */
export interface HeatAccount {
  readonly heater: number;
  readonly arc: number;
  readonly lost: number;
  readonly stored: number;
}

export interface Part {
  /** Lets time pass. What is too short for a step of its own waits for the next. */
  advance(seconds: number): void;
  heater(heater: Heater): void;
  arc(on: boolean): void;
  celsiusAt(depth: number, distanceMillimetres: number): number;
  /** What the heater gives now, as a share of its full power. */
  heatingShare(): number;
  account(): HeatAccount;
}

/** An arc and a flame pass within seconds: while one burns no step is longer than the first, and none than the second. */
const longestStepSeconds = { burning: 0.25, quiet: 1 };
const stefanBoltzmann = 5.670374e-8;
const kelvinAtZero = 273.15;
/** Steel beyond the heater where nobody says how wide the plate is: so much, or so many thicknesses. */
const beyondBand = { millimetres: 300, thicknesses: 2 };

export function createPart(options: PartOptions): Part {
  const { thicknessMillimetres, steel, ambientCelsius, heatedFace } = options;
  const beyond = Math.max(beyondBand.millimetres, beyondBand.thicknesses * thicknessMillimetres);
  const widthMillimetres = options.widthMillimetres ?? options.bandMillimetres + beyond;
  const plate = createPlate({
    thickness: thicknessMillimetres / 1000,
    length: widthMillimetres / 1000,
    steel,
    celsius: ambientCelsius,
  });
  const front = createFace(options.frontLoss, plate.frontCelsius, heatedFace !== 'back');
  const back = createFace(options.backLoss, plate.backCelsius, heatedFace !== 'front');
  const arc = createArc(options, plate);
  const groove = new Float64Array(plate.layers);
  const faces = heatedFace === 'both' ? 2 : 1;
  const fullPower = (faces * options.heaterWattsPerSquareMetre * options.bandMillimetres) / 1000;
  const spent = { heater: 0, arc: 0, lost: 0 };
  let heater: Heater = { on: false, setPointCelsius: ambientCelsius };
  let burns = false;
  let owedSeconds = 0;

  function createFace(loss: FaceLoss, celsius: Float64Array, heated: boolean) {
    const pads = heated ? createFaceHeater(options, plate) : undefined;
    const given = new Float64Array(plate.columns);
    const power = (): number => given.reduce((sum, watts) => sum + watts, 0) * plate.column;
    const inflow = new Float64Array(plate.columns);
    const move = (seconds: number): void => {
      pads?.heat(given, seconds, heater, celsius);
      const share = plate.column * seconds;
      for (let x = 0; x < inflow.length; x += 1) {
        const lost = lossOf(loss, celsius[x]!, ambientCelsius) * (1 - (pads?.covered[x] ?? 0));
        inflow[x] = given[x]! - lost;
        spent.heater += given[x]! * share;
        spent.lost += lost * share;
      }
    };
    return { inflow, move, power };
  }

  const step = (seconds: number): void => {
    front.move(seconds);
    back.move(seconds);
    arc.heat(groove, seconds);
    for (const watts of groove) spent.arc += watts * seconds;
    plate.step(seconds, { front: front.inflow, back: back.inflow, groove });
  };

  return {
    advance: (seconds) => {
      const flame = burns || options.heating === 'torch';
      const length = Math.min(plate.stableSeconds, flame ? longestStepSeconds.burning : longestStepSeconds.quiet);
      // A step that is short by rounding only is a whole one.
      for (owedSeconds += seconds; owedSeconds > length - 1e-9; owedSeconds -= length) step(length);
    },
    heater: (next) => {
      heater = next;
    },
    arc: (on) => {
      burns = on;
      arc.burn(on);
    },
    celsiusAt: (depth, distanceMillimetres) => plate.celsiusAt(distanceMillimetres / 1000, depth * plate.thickness),
    heatingShare: () => (front.power() + back.power()) / fullPower,
    account: () => ({ ...spent, stored: plate.stored() }),
  };
}

/** W/m2 from bare steel to the air and to all that stands around. */
function lossOf({ convectionWattsPerSquareMetreKelvin, emissivity }: FaceLoss, face: number, air: number): number {
  const [hot, cold] = [face + kelvinAtZero, air + kelvinAtZero];
  const radiation = emissivity * stefanBoltzmann * (hot * hot + cold * cold) * (hot + cold);
  return (convectionWattsPerSquareMetreKelvin + radiation) * (face - air);
}
