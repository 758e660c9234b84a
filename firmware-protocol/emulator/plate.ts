/**
 * A section through one plate, from the groove's edge along the plate and from the front through the thickness, cut
 * into small blocks. Each block gives heat to its neighbours for a short step (explicit finite differences of what is
 * stored), so that what one loses the other gains to the last bit. The groove's face gains only what is put there; the
 * far end is so far away that it loses nothing. All per metre of joint, lengths in metres.
 */
import type { EmulatedSteel } from './steel.ts';

export interface PlateOptions {
  readonly thickness: number;
  readonly length: number;
  readonly steel: EmulatedSteel;
  readonly celsius: number;
}

/** What goes into the plate: W/m2 into each column's two faces, W into each layer at the groove's face. */
export interface Inflow {
  readonly front: Float64Array;
  readonly back: Float64Array;
  readonly groove: Float64Array;
}

export interface Plate {
  readonly thickness: number;
  readonly columns: number;
  readonly layers: number;
  /** Length of a column along the plate and thickness of a layer. */
  readonly column: number;
  readonly layer: number;
  readonly frontCelsius: Float64Array;
  readonly backCelsius: Float64Array;
  /** Longest step, in seconds, that no block can be thrown beyond its neighbours by. */
  readonly stableSeconds: number;
  step(seconds: number, inflow: Inflow): void;
  /** Distance from the groove's edge; depth from the front. */
  celsiusAt(distance: number, depth: number): number;
  /** Heat in the plate beyond what it began with, J. */
  stored(): number;
}

/** Blocks about this large, and never fewer or more layers than that: thin plates stay cheap, thick ones too. */
const blockMetres = 0.008;
const layersBetween = { fewest: 3, most: 24 };

export function createPlate({ thickness, length, steel, celsius: beginning }: PlateOptions): Plate {
  const layers = Math.min(Math.max(Math.round(thickness / blockMetres), layersBetween.fewest), layersBetween.most);
  const layer = thickness / layers;
  const columns = Math.ceil(length / Math.max(blockMetres, layer));
  const column = length / columns;
  const blocks = columns * layers;
  const enthalpyAtStart = steel.enthalpyAt(beginning);
  const enthalpy = new Float64Array(blocks).fill(enthalpyAtStart);
  const celsius = new Float64Array(blocks).fill(beginning);
  const conductivity = new Float64Array(blocks).fill(steel.conductivityOf(enthalpyAtStart));
  const gain = new Float64Array(blocks);
  const frontCelsius = new Float64Array(columns).fill(beginning);
  const backCelsius = new Float64Array(columns).fill(beginning);
  const through = column / layer / 2;
  const along = layer / column / 2;

  const conduct = (): void => {
    for (let x = 0, block = 0; x < columns; x += 1) {
      for (let y = 0; y < layers; y += 1, block += 1) {
        const [here, own] = [celsius[block]!, conductivity[block]!];
        if (y < layers - 1) {
          const flow = through * (own + conductivity[block + 1]!) * (here - celsius[block + 1]!);
          gain[block]! -= flow;
          gain[block + 1]! += flow;
        }
        if (x < columns - 1) {
          const flow = along * (own + conductivity[block + layers]!) * (here - celsius[block + layers]!);
          gain[block]! -= flow;
          gain[block + layers]! += flow;
        }
      }
    }
  };

  /** A face lies half a layer beyond the middle of its block, and its flux runs through that half. */
  const face = (block: number, flux: number): number => celsius[block]! + (flux * layer) / 2 / conductivity[block]!;

  const step = (seconds: number, { front, back, groove }: Inflow): void => {
    gain.fill(0);
    for (let y = 0; y < layers; y += 1) gain[y]! += groove[y]!;
    for (let x = 0; x < columns; x += 1) {
      gain[x * layers]! += front[x]! * column;
      gain[x * layers + layers - 1]! += back[x]! * column;
    }
    conduct();
    const share = seconds / (column * layer);
    for (let block = 0; block < blocks; block += 1) {
      const now = enthalpy[block]! + gain[block]! * share;
      enthalpy[block] = now;
      celsius[block] = steel.celsiusOf(now);
      conductivity[block] = steel.conductivityOf(now);
    }
    for (let x = 0; x < columns; x += 1) {
      frontCelsius[x] = face(x * layers, front[x]!);
      backCelsius[x] = face(x * layers + layers - 1, back[x]!);
    }
  };

  /** Through one column: the two faces and the middles of the blocks, joined by straight lines. */
  const inColumn = (x: number, depth: number): number => {
    const at = depth / layer + 0.5;
    if (at <= 1) return between(frontCelsius[x]!, celsius[x * layers]!, 2 * Math.max(at - 0.5, 0));
    if (at >= layers)
      return between(celsius[x * layers + layers - 1]!, backCelsius[x]!, 2 * Math.min(at - layers, 0.5));
    const above = Math.floor(at) - 1;
    return between(celsius[x * layers + above]!, celsius[x * layers + above + 1]!, at - 1 - above);
  };

  return {
    thickness,
    columns,
    layers,
    column,
    layer,
    frontCelsius,
    backCelsius,
    stableSeconds: 0.4 / (steel.diffusivityMaximum * (1 / (column * column) + 1 / (layer * layer))),
    step,
    celsiusAt: (distance, depth) => {
      const at = Math.min(Math.max(distance / column - 0.5, 0), columns - 1.001);
      const left = Math.floor(at);
      return between(inColumn(left, depth), inColumn(left + 1, depth), at - left);
    },
    stored: () => {
      let sum = 0;
      for (const one of enthalpy) sum += one - enthalpyAtStart;
      return sum * column * layer;
    },
  };
}

const between = (from: number, to: number, share: number): number => from + (to - from) * share;
