/**
 * The steel under the probes: a plate heated on one face, cut into layers, with a controller that holds a
 * set point on the heated face, loss to the air from both faces, and the heat of welding near the groove.
 * It is here to give believable curves and its numbers are round ones; nothing judges by them.
 */

export interface PartOptions {
  readonly thicknessMillimetres: number;
  readonly ambientCelsius: number;
  /** Highest power of the heater over the heated face. */
  readonly heaterWattsPerSquareMetre: number;
  /** Loss from each face to the air. */
  readonly lossWattsPerSquareMetreKelvin: number;
  /** How fast an arc raises the steel at the groove. */
  readonly arcKelvinPerSecond: number;
}

export const usualPart: PartOptions = {
  thicknessMillimetres: 70,
  ambientCelsius: 20,
  heaterWattsPerSquareMetre: 18_000,
  lossWattsPerSquareMetreKelvin: 9,
  arcKelvinPerSecond: 0.9,
};

/** Where a junction sits. depth: 0 on the heated face, 1 on the opposite face. */
export type EmulatedPlace =
  | { readonly at: 'part'; readonly depth: number; readonly distanceMillimetres: number }
  | { readonly at: 'air' };

export interface Heater {
  readonly on: boolean;
  readonly setPointCelsius: number;
}

export interface Part {
  /** Lets time pass, in steps of at most a second. */
  advance(seconds: number): void;
  heater(heater: Heater): void;
  arc(on: boolean): void;
  temperatureAt(place: EmulatedPlace): number;
}

const layers = 20;
const conductivity = 46; // W/(m K)
const heatCapacity = 3.9e6; // J/(m3 K)
/** The controller gives full power this far below its set point and none at it. */
const bandKelvin = 2;
/** Welding heat spreads from the groove and leaves it; seconds and millimetres chosen for a look of truth. */
const weld = { spreadSeconds: 25, leaveSeconds: 240, reachMillimetres: 30 };
/** A heated band is cooler toward its ends: this share of the rise is missing 200 mm from the groove. */
const edgeShare = 0.05;

export const createPart = (options: PartOptions): Part => {
  const { ambientCelsius, lossWattsPerSquareMetreKelvin: loss } = options;
  const layer = options.thicknessMillimetres / 1000 / layers;
  const temperatures = new Float64Array(layers).fill(ambientCelsius);
  let heater: Heater = { on: false, setPointCelsius: ambientCelsius };
  let arc = false;
  let groove = 0;
  let beside = 0;

  const power = (): number => {
    if (!heater.on) return 0;
    const share = (heater.setPointCelsius - temperatures[0]!) / bandKelvin;
    return Math.min(Math.max(share, 0), 1) * options.heaterWattsPerSquareMetre;
  };

  const step = (seconds: number): void => {
    conduct(temperatures, {
      store: (heatCapacity * layer) / seconds,
      between: conductivity / layer,
      loss: 1 / (1 / loss + layer / 2 / conductivity),
      ambientCelsius,
      power: power(),
    });
    groove += seconds * ((arc ? options.arcKelvinPerSecond : 0) - groove / weld.leaveSeconds);
    beside += (seconds * (groove - beside)) / weld.spreadSeconds;
  };

  return {
    advance: (seconds) => {
      for (let left = seconds; left > 1e-9; left -= 1) step(Math.min(left, 1));
    },
    heater: (next) => {
      heater = next;
    },
    arc: (on) => {
      arc = on;
    },
    temperatureAt: (place) => {
      if (place.at === 'air') return ambientCelsius;
      const along = 1 - edgeShare * (place.distanceMillimetres / 200) ** 2;
      const rise = atDepth(temperatures, place.depth) - ambientCelsius;
      return ambientCelsius + rise * along + beside * Math.exp(-place.distanceMillimetres / weld.reachMillimetres);
    },
  };
};

interface Conduction {
  /** All in W/(m2 K): what a layer stores over the step, what passes between layers, what a face loses. */
  readonly store: number;
  readonly between: number;
  readonly loss: number;
  readonly ambientCelsius: number;
  /** W/m2 into the first layer. */
  readonly power: number;
}

/** One implicit step through all layers: each gives to and takes from its neighbours at the new temperatures. */
const conduct = (temperatures: Float64Array, { store, between, loss, ambientCelsius, power }: Conduction): void => {
  const upper = new Float64Array(layers);
  const right = new Float64Array(layers);
  for (let index = 0; index < layers; index += 1) {
    const outer = index === 0 || index === layers - 1;
    const below = index === 0 ? 0 : between;
    const above = index === layers - 1 ? 0 : between;
    const gained = (index === 0 ? power : 0) + (outer ? loss * ambientCelsius : 0);
    const pivot = store + below + above + (outer ? loss : 0) - below * (upper[index - 1] ?? 0);
    upper[index] = above / pivot;
    right[index] = (store * temperatures[index]! + gained + below * (right[index - 1] ?? 0)) / pivot;
  }
  let next = 0;
  for (let index = layers - 1; index >= 0; index -= 1) {
    next = right[index]! + upper[index]! * next;
    temperatures[index] = next;
  }
};

const atDepth = (temperatures: Float64Array, depth: number): number => {
  const place = Math.min(Math.max(depth * layers - 0.5, 0), layers - 1);
  const low = Math.min(Math.floor(place), layers - 2);
  return temperatures[low]! + (temperatures[low + 1]! - temperatures[low]!) * (place - low);
};
