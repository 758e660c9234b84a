/**
 * The temperatures of a probe beside the voltages and cold junctions that they were made from: over a minute they follow a
 * plane, so that hardly anything is left to tell. Whole numbers only, so that every machine reads the same.
 */
import type { PieceReader, PieceWriter } from './bits.ts';
import { codeOf, readDiffers, writeDiffers } from './packed-column.ts';

/** What the probe before it had, from which the next one is told: neighbours on one part are alike. */
export interface Near {
  readonly first: { readonly voltage: number; readonly coldJunction: number; readonly temperature: number };
  readonly slope: { readonly voltage: number; readonly coldJunction: number };
}
interface Made {
  readonly voltage: readonly number[];
  readonly coldJunction: readonly number[];
}
interface Told {
  readonly temperature: readonly number[];
}
type Slopes = Near['slope'];

/** Slopes and what lies beyond them are counted in so many parts of a thousandth of a degree. */
const parts = { voltage: 2 ** 12, coldJunction: 2 ** 10, beyond: 2 ** 5 } as const;
const perCold = parts.voltage / parts.coldJunction;
/** Within these every sum is exact. */
const spanMaximum = 2 ** 22;
const slopeMaximum = 2 ** 24;
/** Where more is left to tell of each temperature it is told by itself, bits. */
const worthBits = 4;

export interface Plane {
  readonly voltage: number;
  readonly coldJunction: number;
  readonly beyond: number;
  readonly differs: readonly number[];
  readonly k: number;
}

/** Undefined where the temperatures do not follow a plane. */
export const planeOf = (made: Made & Told): Plane | undefined => {
  const plane = planeThrough(made);
  if (plane === undefined) return undefined;
  const [first] = made.temperature;
  const differs = made.temperature.slice(1).map((each, at) => each - first! - onPlane(plane, made, at + 1));
  const code = codeOf(differs);
  return code === undefined || code.bits > worthBits * differs.length ? undefined : { ...plane, differs, k: code.k };
};

export const writeAlong = (writer: PieceWriter, plane: Plane, made: Made & Told, near: Near): void => {
  writer.byte(plane.k);
  writer.signed(plane.voltage - near.slope.voltage);
  writer.signed(plane.coldJunction - near.slope.coldJunction);
  writer.signed(plane.beyond);
  writer.signed(made.temperature[0]! - firstNear(plane, made, near));
  writeDiffers(writer, plane.differs, plane.k);
};

export const readAlong = (
  reader: PieceReader,
  made: Made,
  near: Near,
): { readonly temperature: number[]; readonly slope: Near['slope'] } => {
  const k = reader.byte() % 32;
  const slope = {
    voltage: near.slope.voltage + reader.signed(),
    coldJunction: near.slope.coldJunction + reader.signed(),
  };
  const plane = { ...slope, beyond: reader.signed() };
  const first = firstNear(plane, made, near) + reader.signed();
  const differs = readDiffers(reader, made.voltage.length - 1, k);
  return { slope, temperature: [first, ...differs.map((each, at) => first + onPlane(plane, made, at + 1) + each)] };
};

/** From the first of the probe before, by the slopes of this one. */
const firstNear = (plane: Slopes, made: Made, { first }: Near): number =>
  first.temperature +
  Math.floor(
    (plane.voltage * (made.voltage[0]! - first.voltage) +
      plane.coldJunction * perCold * (made.coldJunction[0]! - first.coldJunction)) /
      parts.voltage,
  );

const onPlane = (plane: Slopes & { readonly beyond: number }, { voltage, coldJunction }: Made, at: number): number =>
  Math.floor(
    (plane.beyond * (parts.voltage / parts.beyond) +
      plane.voltage * (voltage[at]! - voltage[0]!) +
      plane.coldJunction * perCold * (coldJunction[at]! - coldJunction[0]!)) /
      parts.voltage,
  );

/** Least squares. What it finds is only a way to tell: any other plane would give back the same temperatures. */
const planeThrough = ({
  voltage,
  coldJunction,
  temperature,
}: Made & Told): (Slopes & { readonly beyond: number }) | undefined => {
  const [v, c, t] = [voltage, coldJunction, temperature].map((values) => values.map((each) => each - values[0]!));
  if ([v!, c!, t!].some((values) => values.some((each) => Math.abs(each) > spanMaximum))) return undefined;
  const [vm, cm, tm] = [v!, c!, t!].map((values) => values.reduce((sum, each) => sum + each, 0) / values.length);
  let [vv, cc, vc, vt, ct] = [0, 0, 0, 0, 0];
  for (let at = 0; at < v!.length; at += 1) {
    const [dv, dc, dt] = [v![at]! - vm!, c![at]! - cm!, t![at]! - tm!];
    vv += dv * dv;
    cc += dc * dc;
    vc += dv * dc;
    vt += dv * dt;
    ct += dc * dt;
  }
  const whole = vv * cc - vc * vc;
  const onVoltage = whole > 0 ? (vt * cc - ct * vc) / whole : vv > 0 ? vt / vv : 0;
  const onCold = whole > 0 ? (ct * vv - vt * vc) / whole : vv > 0 ? 0 : cc > 0 ? ct / cc : 0;
  const slopes = [Math.round(onVoltage * parts.voltage), Math.round(onCold * parts.coldJunction)];
  if (slopes.some((slope) => !(Math.abs(slope) < slopeMaximum))) return undefined;
  const beyond = Math.round((tm! - onVoltage * vm! - onCold * cm! + 0.5) * parts.beyond);
  return Math.abs(beyond) < 2 ** 40 ? { voltage: slopes[0]!, coldJunction: slopes[1]!, beyond } : undefined;
};
