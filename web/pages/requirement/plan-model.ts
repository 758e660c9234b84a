/**
 * A heating planned before it begins, as it is typed: for each part how long until the minimum is reached all through.
 * What the joint says stands in the fields at first; nothing here changes the joint. What is missing is asked for.
 */
import { type JointSection, jointSections } from '../../../server/conduction/joint-sections.ts';
import { type Heating, type WarmingPlan, warmingPlan } from '../../../server/conduction/plan.ts';
import { isRefusal } from '../../../server/conduction/refusal.ts';
import { depthOf, type Shape } from '../../../server/conduction/shape.ts';
import { fromFahrenheit, toFahrenheit, type UnitSystem, unitsOf } from '../../../server/measure/units.ts';
import { steady } from '../../../server/metallurgy/number.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { reasonText } from '../../../server/wording/section.ts';
import { type QuantityKind, quantityText, readQuantity } from '../new-joint/quantity.ts';

/** As typed, in the units of the job: rate per hour, temperatures. */
export interface PlanFields {
  readonly rate: string;
  readonly setPoint: string;
  readonly air: string;
}

/** Parts that answer alike share one. */
export type PartPlan =
  | {
      readonly parts: readonly string[];
      readonly depthMillimetres: number;
      readonly setPointCelsius: number;
      readonly plan: WarmingPlan;
    }
  | { readonly parts: readonly string[]; readonly because: string };

export interface Planned {
  /** What is wrong with a field, or that it is needed. */
  readonly problems: Readonly<Partial<Record<keyof PlanFields, string>>>;
  /** Empty while a field is missing. */
  readonly plans: readonly PartPlan[];
}

/** The set point of the joint, else 10 K above the minimum, in whole degrees; a rate is nobody's to assume. */
export const firstFields = (joint: Joint, minimumCelsius: number | undefined): PlanFields => {
  const units = unitsOf(joint);
  const { setPointCelsius, airCelsius } = joint.heating;
  return {
    rate: '',
    setPoint: quantityText(setPointCelsius ?? above(minimumCelsius, units), 'temperature', units),
    air: quantityText(airCelsius, 'temperature', units),
  };
};

export const planned = (joint: Joint, minimumCelsius: number, fields: PlanFields): Planned => {
  const units = unitsOf(joint);
  const problems: Partial<Record<keyof PlanFields, string>> = {};
  const read = (field: keyof PlanFields, kind: QuantityKind, needed: string): number => {
    const found = readQuantity(fields[field], kind, units);
    if (found.kind === 'number') return found.value;
    problems[field] = found.kind === 'none' ? needed : `"${fields[field].trim()}" is not a number. Write it like 12.5.`;
    return Number.NaN;
  };
  const rampKelvinPerHour = read('rate', 'difference', 'Needed: how fast the heated face is to rise.');
  const setPointCelsius = read('setPoint', 'temperature', 'Needed: where the heated face is to be held.');
  const ambientCelsius = read('air', 'temperature', 'Needed: the air, and the part as cold as it.');
  if (problems.rate === undefined && rampKelvinPerHour <= 0) problems.rate = 'A rise above 0.';
  if (problems.setPoint === undefined && problems.air === undefined && setPointCelsius <= ambientCelsius)
    problems.setPoint = 'Above the air temperature.';
  if (Object.keys(problems).length > 0) return { problems, plans: [] };
  const asked = {
    ambientCelsius,
    minimumCelsius,
    holdMinutes: joint.procedure?.throughThicknessHoldMinutes ?? 0,
    rampKelvinPerHour,
    setPointCelsius,
  };
  const groups = new Map<string, { readonly sections: JointSection[]; readonly way: Way }>();
  for (const section of jointSections(joint)) {
    const way = wayThrough(joint, section);
    const key = JSON.stringify('because' in way ? way : [way.shape, way.steel.id, way.far, way.band]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { sections: [section], way });
    else group.sections.push(section);
  }
  const plans = [...groups.values()].map(({ sections, way }): PartPlan => {
    const parts = sections.map(({ part }) => part);
    if ('because' in way) return { parts, because: way.because };
    const plan = warmingPlan({ ...asked, ...way });
    return isRefusal(plan)
      ? { parts, because: plan.because }
      : { parts, depthMillimetres: sections[0]!.depthMillimetres, setPointCelsius, plan };
  });
  return { problems, plans };
};

type Way = Pick<Heating, 'shape' | 'steel' | 'far' | 'band'> | { readonly because: string };

/** What the plan goes by; probes need not be placed yet. Heated alike from both faces, the middle loses to nobody. */
const wayThrough = (joint: Joint, section: JointSection): Way => {
  const { part, shape, steel, farSide, lacks } = section;
  const lack = (reason: Parameters<typeof reasonText>[0]): Way => ({
    because: reasonText(reason, { part, ...lacks, missing: [] }, unitsOf(joint)),
  });
  if (shape === undefined) return lack('no outside diameter');
  if (steel === undefined) return lack('steel not known');
  if (shape.kind === 'bar') return { shape, steel, far: 'insulated' };
  if (joint.heating.face === 'both') {
    if (shape.kind === 'tube') return { because: 'heated from both faces, only a plate is planned' };
    return { shape: { ...shape, thicknessMillimetres: shape.thicknessMillimetres / 2 }, steel, far: 'insulated' };
  }
  if (farSide === 'colder mass or fluid') return lack('far side takes heat that nobody can name');
  const band = section.band ?? bandOf(joint, shape);
  return { shape, steel, far: farSide, ...(band === undefined ? {} : { band }) };
};

/** While no probe is placed: one thickness from the groove, where the first may sit. */
function bandOf({ heating }: Joint, shape: Shape): Heating['band'] {
  const { means, halfWidthMillimetres } = heating;
  if (means === 'furnace' || halfWidthMillimetres === undefined) return undefined;
  return { halfWidthMillimetres, distanceMillimetres: Math.min(depthOf(shape) * 1000, halfWidthMillimetres) };
}

const above = (minimumCelsius: number | undefined, units: UnitSystem): number | undefined => {
  if (minimumCelsius === undefined) return undefined;
  return units === 'inch'
    ? fromFahrenheit(Math.ceil(steady(toFahrenheit(minimumCelsius))) + 18)
    : Math.ceil(steady(minimumCelsius)) + 10;
};
