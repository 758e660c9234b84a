/** A wall of carbon steel in the shop, driven at whole seconds. */
import type { Loss } from '../../server/conduction/loss.ts';
import { isRefusal, type Refusal } from '../../server/conduction/refusal.ts';
import {
  createSection,
  driveSection,
  type Section,
  type SectionSpec,
  type SectionStart,
} from '../../server/conduction/section.ts';
import { carbonSteel } from '../../server/conduction/steel/carbon.ts';
import { createWall, drive, type Wall, type WallSpec } from '../../server/conduction/wall.ts';
import { instant, milliCelsius, seconds } from '../../server/measure/quantity.ts';

export const second = (at: number) => instant(seconds(at));

export function taken<Value extends object>(value: Value | Refusal): Value {
  if (isRefusal(value)) throw new Error(value.because);
  return value;
}

export const steelWall = (
  thicknessMillimetres: number,
  more: Partial<WallSpec> & { start?: number; loss?: Loss } = {},
): Wall => {
  const { start = 20, ...spec } = more;
  return taken(
    createWall(
      {
        shape: { kind: 'plate', thicknessMillimetres },
        steel: carbonSteel,
        loss: { convection: 0, emissivity: 0 },
        ambientCelsius: 20,
        ...spec,
      },
      { at: second(0), frontCelsius: start },
    ),
  );
};

export const steelSection = (
  thicknessMillimetres: number,
  more: Partial<SectionSpec> = {},
  start: Partial<SectionStart> = {},
): Section =>
  taken(
    createSection(
      {
        shape: { kind: 'plate', thicknessMillimetres },
        steel: carbonSteel,
        far: 'still air',
        farProbe: false,
        ambientCelsius: 20,
        ...more,
      },
      { at: second(0), faceCelsius: 20, inside: 'as the face', ...start },
    ),
  );

/** Degrees at the seconds given, which need not be even; undefined where the probe says nothing. Stops at a refusal. */
export function driveWall(
  wall: Wall,
  times: readonly number[],
  front: (at: number) => number | undefined,
  back: (at: number) => number | undefined = () => undefined,
): Refusal | undefined {
  const milli = (celsius: number | undefined) => (celsius === undefined ? undefined : milliCelsius(celsius));
  for (const at of times) {
    const refused = drive(wall, second(at), milli(front(at)), milli(back(at)));
    if (refused !== undefined) return refused;
  }
  return undefined;
}

/** The same for a section, which must take every reading. */
export function driven(
  section: Section,
  times: readonly number[],
  front: (at: number) => number,
  back?: (at: number) => number,
): Section {
  const milli = (celsius: number | undefined) => (celsius === undefined ? undefined : milliCelsius(celsius));
  for (const at of times) {
    const refused = driveSection(section, second(at), milli(front(at)), milli(back?.(at)));
    if (refused !== undefined) throw new Error(refused.because);
  }
  return section;
}

export const everySecond = (from: number, to: number): number[] =>
  Array.from({ length: to - from }, (_, index) => from + index + 1);

/** From 20 degrees at that many kelvin per hour to the set point, and held there. */
export const rampTo = (setPoint: number, kelvinPerHour: number) => (at: number) =>
  Math.min(setPoint, 20 + (kelvinPerHour * at) / 3600);
