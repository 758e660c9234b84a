/** The axis across a part: round depths in the unit of the job, the heated face at 0 and the far one at the end. */
import { fromInches, toInches, type UnitSystem } from '../../../server/measure/units.ts';
import { lengthFigure } from '../../../server/wording/length.ts';

export interface DepthTick {
  readonly millimetres: number;
  readonly text: string;
}

/** At most `most` steps. A round depth that would touch the last one is left out. */
export const depthTicks = (depthMillimetres: number, units: UnitSystem, most: number): DepthTick[] => {
  const inch = units === 'inch';
  const depth = inch ? toInches(depthMillimetres) : depthMillimetres;
  const step = (inch ? inchSteps : millimetreSteps).find((each) => depth / each <= most + 1e-9) ?? depth;
  const ticks: DepthTick[] = [];
  for (let at = 0; at < depth - 0.6 * step; at += step) {
    const millimetres = inch ? fromInches(at) : at;
    ticks.push({ millimetres, text: lengthFigure(millimetres, units) });
  }
  return [...ticks, { millimetres: depthMillimetres, text: lengthFigure(depthMillimetres, units) }];
};

const millimetreSteps = [1, 2, 5, 10, 20, 50, 100];
const inchSteps = [0.05, 0.1, 0.25, 0.5, 1, 2, 5];
