/**
 * What a heating will take before it begins, from a part that is as cold as the air all through: the surface rises
 * evenly to the set point and is held there. Nothing here is measured, so that the joint is still judged by its probes.
 */
import type { Milliseconds } from '../measure/quantity.ts';
import { instant } from '../measure/quantity.ts';
import { follow } from './ahead.ts';
import { bounds } from './bounds.ts';
import { backAhead } from './faces.ts';
import { copyField, type Field, held } from './field.ts';
import type { FarCondition } from './loss.ts';
import { isRefusal, type Refusal, refuse } from './refusal.ts';
import {
  type Bounded,
  coldestBetween,
  createSection,
  eachWall,
  type Section,
  sectionTimeConstant,
  wallsOf,
} from './section.ts';
import type { Shape } from './shape.ts';
import type { Band } from './sideways.ts';
import type { Steel } from './steel/steel.ts';
import type { Wall } from './wall.ts';
import { type WarmingOutlook, warmingOutlook } from './warming.ts';

export interface Heating {
  readonly shape: Shape;
  readonly steel: Steel;
  readonly far: FarCondition;
  readonly ambientCelsius: number;
  /** To be reached through the whole thickness, and held for that long. */
  readonly minimumCelsius: number;
  readonly holdMinutes: number;
  readonly rampKelvinPerHour: number;
  readonly setPointCelsius: number;
  /** Where the place lies in the heated band; absent: all of the part is heated. */
  readonly band?: Band;
}

/** W/m2 of heated area into the steel: likely, and the lowest and highest of what is not known. */
export interface PowerBand {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface WarmingPlan {
  /** From the start of heating until the surface is at the set point. */
  readonly rampEnds: Milliseconds;
  readonly coldestThen: Bounded;
  /** Times from the start of heating, the time to hold included. */
  readonly ready: WarmingOutlook;
  /**
   * What goes into the steel. What the heater itself gives to the air, and what flows sideways out of the heated band,
   * comes on top and is not in it. Holding is reckoned from the end of the ramp until the part is likely ready, and for
   * the time to hold or one time constant at least.
   */
  readonly ramping: { readonly peak: PowerBand; readonly mean: PowerBand };
  readonly holding: { readonly peak: PowerBand; readonly mean: PowerBand };
}

export function warmingPlan(heating: Heating): WarmingPlan | Refusal {
  const { shape, steel, far, ambientCelsius, minimumCelsius, holdMinutes, rampKelvinPerHour, setPointCelsius, band } =
    heating;
  const section = createSection(
    { shape, steel, far, farProbe: false, ambientCelsius, ...(band === undefined ? {} : { band }) },
    { at: instant(0), faceCelsius: ambientCelsius, inside: 'as the face' },
  );
  const refused = rampRefused(heating);
  if (isRefusal(section)) return section;
  if (refused !== undefined) return refused;
  const holdMilliseconds = holdMinutes * 60_000;
  const ready = warmingOutlook(
    section,
    { kind: 'rising', kelvinPerMinute: rampKelvinPerHour / 60, toCelsius: setPointCelsius },
    { celsius: minimumCelsius, holdMilliseconds },
  );
  if (isRefusal(ready)) return ready;
  const rampEnds = Math.max(1, Math.round(((setPointCelsius - ambientCelsius) / rampKelvinPerHour) * 3_600_000));
  const holding = Math.max(holdMilliseconds, sectionTimeConstant(section));
  const until = Math.max(ready.likely ?? 0, rampEnds + holding);
  const runs = new Map(
    wallsOf(section).map((wall) => [wall, heated(section, wall, heating, rampEnds / 1000, until / 1000)]),
  );
  const power = (of: (run: Run) => number): PowerBand => {
    const values = [...runs.values()].map((run) => Math.round(of(run)));
    return { low: Math.min(...values), likely: values[0]!, high: Math.max(...values) };
  };
  return {
    rampEnds: rampEnds as Milliseconds,
    coldestThen: coldestBetween(eachWall(section, (wall) => ({ ...wall, field: runs.get(wall)!.atRampEnd }))),
    ready,
    ramping: { peak: power((run) => run.rampPeak), mean: power((run) => run.rampMean) },
    holding: { peak: power((run) => run.holdPeak), mean: power((run) => run.holdMean) },
  };
}

interface Run {
  readonly rampPeak: number;
  readonly rampMean: number;
  readonly holdPeak: number;
  readonly holdMean: number;
  readonly atRampEnd: Field;
}

function heated(section: Section, wall: Wall, heating: Heating, rampEnds: number, until: number): Run {
  const { ambientCelsius, setPointCelsius } = heating;
  const front = (at: number) =>
    held(setPointCelsius - (Math.max(0, rampEnds - at) / rampEnds) * (setPointCelsius - ambientCelsius));
  let rampPeak = 0;
  let holdPeak = 0;
  let atRampEnd = wall.field;
  let heat = 0;
  follow(wall, { front, back: backAhead(section, wall), bends: [rampEnds], until }, (at, field) => {
    if (at <= rampEnds) rampPeak = Math.max(rampPeak, field.frontFlux);
    // What the ramp needs last is the first that holding needs.
    if (at >= rampEnds) holdPeak = Math.max(holdPeak, field.frontFlux);
    if (at === rampEnds) atRampEnd = copyField(field);
    heat = field.heat.front;
    return false;
  });
  const ramp = atRampEnd.heat.front;
  return { rampPeak, rampMean: ramp / rampEnds, holdPeak, holdMean: (heat - ramp) / (until - rampEnds), atRampEnd };
}

function rampRefused(heating: Heating): Refusal | undefined {
  const { ambientCelsius, setPointCelsius, rampKelvinPerHour, holdMinutes, minimumCelsius } = heating;
  if (![ambientCelsius, setPointCelsius, rampKelvinPerHour, holdMinutes, minimumCelsius].every(Number.isFinite))
    return refuse('not a number', 'Air, set point, ramp, minimum and time to hold must all be numbers.');
  if (rampKelvinPerHour <= 0) return refuse('heating not possible', 'The ramp must be above 0 K/h.');
  if (holdMinutes < 0) return refuse('heating not possible', 'The time to hold must not be below 0 minutes.');
  if (setPointCelsius <= ambientCelsius) {
    return refuse(
      'heating not possible',
      `The set point, ${setPointCelsius} °C, must be above the part as it is now, ${ambientCelsius} °C.`,
    );
  }
  const hours = (setPointCelsius - ambientCelsius) / rampKelvinPerHour;
  if (hours <= bounds.risingHoursMaximum) return undefined;
  return refuse(
    'heating not possible',
    `At ${rampKelvinPerHour} K/h the set point takes longer than ${bounds.risingHoursMaximum} h; enter a quicker ramp.`,
  );
}
