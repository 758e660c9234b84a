/** How the faces of a section go on when nobody measures or heats them: for each wall by its own end of what is known. */
import type { FarLoss } from './far-loss.ts';
import { type FaceCondition, held, insulated, losing } from './field.ts';
import { type Loss, type LossCases, lossCasesOf } from './loss.ts';
import type { Section } from './section.ts';
import type { Wall } from './wall.ts';

/** Which end of what is not known this wall of the section carries. */
export const caseOf = (section: Section, wall: Wall): keyof LossCases =>
  wall === section.likely ? 'likely' : wall === section.coldSlow || wall === section.coldQuick ? 'worst' : 'best';

/**
 * What the far face loses in this wall's case: as probes on both faces found it where that is handed in, else as its
 * condition was entered. Undefined where neither names it. What was found at the temperatures of now holds for those.
 */
export function farLossAhead(section: Section, wall: Wall, found?: FarLoss): Loss | undefined {
  if (found === undefined) return lossCasesOf(section.spec.far) === undefined ? undefined : wall.spec.loss;
  const off = { best: -1, likely: 0, worst: 1 }[caseOf(section, wall)];
  return { convection: Math.max(0, found.coefficient + off * found.uncertainty), emissivity: 0 };
}

/**
 * The far face as nobody measures it, also where a probe has driven it until now: the probe says how the wall is, and
 * not how it will be. Where no loss can be named it keeps what it has, and at best takes nothing more.
 */
export function backAhead(section: Section, wall: Wall, found?: FarLoss): FaceCondition {
  const loss = farLossAhead(section, wall, found);
  if (loss !== undefined) return losing(wall.ambientCelsius, loss.convection, loss.emissivity);
  return caseOf(section, wall) === 'best' ? insulated : held(wall.field.backCelsius);
}

/** The front with the heat off, by these cases of loss. */
export function frontLeft(section: Section, wall: Wall, cases: LossCases): FaceCondition {
  const { convection, emissivity } = cases[caseOf(section, wall)];
  return losing(wall.ambientCelsius, convection, emissivity);
}
