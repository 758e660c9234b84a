/** The limits that are judged, in the judge's integers. */
import { milliCelsius, millikelvin, minutes } from '../measure/quantity.ts';
import type { Requirement } from '../metallurgy/answer.ts';
import type { Joint } from '../weld/joint.ts';
import type { Limits } from './assessment.ts';

/** What the procedure does not state is absent; the minimum comes from the requirement. */
export function limitsOf(joint: Joint, requirement: Requirement): Limits {
  const { procedure } = joint;
  const minimum = requirement.governing.preheatMinimumCelsius;
  return {
    ...(minimum === undefined ? {} : { preheatMinimum: milliCelsius(minimum) }),
    ...(procedure?.interpassMaximumCelsius === undefined
      ? {}
      : { interpassMaximum: milliCelsius(procedure.interpassMaximumCelsius) }),
    ...(procedure?.maintenanceMinimumCelsius === undefined
      ? {}
      : { maintenanceMinimum: milliCelsius(procedure.maintenanceMinimumCelsius) }),
    ...(procedure?.highestCelsius === undefined ? {} : { highest: milliCelsius(procedure.highestCelsius) }),
    ...(procedure?.evennessMaximumKelvin === undefined
      ? {}
      : { evennessMaximum: millikelvin(procedure.evennessMaximumKelvin) }),
    ...(procedure?.throughThicknessHoldMinutes === undefined
      ? {}
      : { throughThicknessHold: minutes(procedure.throughThicknessHoldMinutes) }),
  };
}
