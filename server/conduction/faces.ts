/** How the faces of a section go on when nobody measures or heats them: for each wall by its own end of what is known. */
import { type FaceCondition, held, insulated, losing } from './field.ts';
import { type LossCases, lossCasesOf } from './loss.ts';
import type { Section } from './section.ts';
import type { Wall } from './wall.ts';

/** Which end of what is not known this wall of the section carries. */
export const caseOf = (section: Section, wall: Wall): keyof LossCases =>
  wall === section.likely ? 'likely' : wall === section.coldSlow || wall === section.coldQuick ? 'worst' : 'best';

/**
 * The far face by the condition that was entered, also where a probe has driven it until now: the probe says how the
 * wall is, and not how it will be. A colder mass or a fluid keeps its face where it is, and at best takes nothing more.
 */
export function backAhead(section: Section, wall: Wall): FaceCondition {
  const { ambientCelsius } = wall;
  const { loss } = wall.spec;
  if (lossCasesOf(section.spec.far) !== undefined) return losing(ambientCelsius, loss.convection, loss.emissivity);
  return caseOf(section, wall) === 'best' ? insulated : held(wall.field.backCelsius);
}

/** The front with the heat off, by these cases of loss. */
export function frontLeft(section: Section, wall: Wall, cases: LossCases): FaceCondition {
  const { convection, emissivity } = cases[caseOf(section, wall)];
  return losing(wall.ambientCelsius, convection, emissivity);
}
