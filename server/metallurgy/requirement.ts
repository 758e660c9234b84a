/**
 * How hot, and why: every carbon equivalent and every method for every part with its working, which value
 * governs, and what a person must be told or asked. Pure; the same answer on the command line, on the screen,
 * in the report and in the judge. It informs; it never says that a weld is safe.
 */
import { unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Acceptance, Equivalent, EquivalentId, Requirement } from './answer.ts';
import { equivalent } from './equivalent.ts';
import { equivalentDefinitions } from './equivalents/list.ts';
import { governing } from './governing.ts';
import { heatInput } from './heat-input.ts';
import { hydrogen } from './hydrogen.ts';
import { answer } from './method.ts';
import { methodsFor } from './methods/list.ts';
import { warnings } from './warnings.ts';

/** `part` of the equivalents of the weld metal. */
const weldMetalName = 'weld metal';

export function requirement(joint: Joint, acceptances: readonly Acceptance[]): Requirement {
  const weldMetal = weldMetalEquivalents(joint);
  const shared = {
    joint,
    hydrogen: hydrogen(joint),
    heatInput: heatInput(joint),
    weldMetal: (id: EquivalentId) => weldMetal.find((one) => one.id === id),
  };
  const equivalents: Equivalent[] = [];
  const answers = joint.parts.flatMap((part) => {
    const own = equivalentDefinitions.map((definition) => equivalent(definition, part.id, part.analyses));
    equivalents.push(...own);
    const facts = { ...shared, part, equivalent: (id: EquivalentId) => byId(own, id) };
    return methodsFor(joint, part).map((method) => answer(method, facts));
  });
  const governs = governing(joint, answers, acceptances);
  return {
    units: unitsOf(joint),
    equivalents: [...equivalents, ...weldMetal],
    methods: answers,
    governing: governs,
    warnings: warnings(joint, answers, acceptances, governs),
  };
}

function weldMetalEquivalents(joint: Joint): Equivalent[] {
  const analysis = joint.consumable.weldMetal;
  if (analysis === undefined) return [];
  return equivalentDefinitions.map((definition) => equivalent(definition, weldMetalName, [analysis]));
}

function byId(equivalents: readonly Equivalent[], id: EquivalentId): Equivalent {
  const found = equivalents.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no carbon equivalent ${id}: name it in equivalents/list.ts`);
  return found;
}
