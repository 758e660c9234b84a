/**
 * What energy each pass brought, from the numbers that were entered of it, judged against the window of the procedure.
 * Numbers that are missing where a window is stated are a finding until they come; none is ever assumed. Without a
 * window the energy is shown; where the minimum preheat was worked out with a heat input, less than that is told,
 * since less heat wants more preheat (EN 1011-2).
 */
import { joulesPerMetre } from '../measure/quantity.ts';
import type { GoverningKind } from '../metallurgy/answer.ts';
import { heatInput, passEnergy } from '../metallurgy/heat-input.ts';
import type { Joint } from '../weld/joint.ts';
import { detailFields, detailsOf, type PassDetails } from '../weld/pass-acts.ts';
import type { HeatWindow } from '../weld/welding.ts';
import { withinWindow } from './compare.ts';
import type { FindingKind } from './finding-kind.ts';
import { type FindingDetail, note, remove } from './findings.ts';
import type { PassHeat } from './pass-status.ts';
import type { PassState, State } from './state.ts';

/** Fills what was left open. What stands already stays: a slip is corrected with its reason, not written over. */
export function addDetails(state: State, id: string, added: PassDetails): void {
  const pass = state.passes.find((each) => each.pass === id);
  if (pass === undefined) return;
  pass.details = { ...detailsOf(added), ...pass.details };
  judgeHeat(state, pass);
}

/** Fields that stand already with another value than the one to be added. */
export const standingOtherwise = (details: PassDetails, added: PassDetails): (keyof PassDetails)[] =>
  detailFields.filter(
    (field) => added[field] !== undefined && details[field] !== undefined && details[field] !== added[field],
  );

/** Kept with the pass; what is wrong with it is told once the pass has ended. */
function judgeHeat(state: State, pass: PassState): void {
  pass.heat = heatOf(state.joint, pass);
  if (pass.endedAt === undefined) return;
  const found = findingOf(state, pass);
  remove(
    state,
    (each) =>
      each.pass !== pass.pass ||
      !isHeatFinding(each.kind) ||
      (each.kind === found?.kind && each.value === found.detail.value),
  );
  if (found !== undefined) note(state, found.kind, pass.endedAt, found.detail);
}

export function heatOf(
  joint: Joint,
  { details, passKind, endedAt }: Pick<PassState, 'details' | 'passKind' | 'endedAt'>,
): PassHeat {
  const stated = joint.procedure?.heatInput;
  const window = isDeposited(passKind) ? stated : undefined;
  const counted = stated?.counted ?? 'heat input';
  const energy = passEnergy(details, details.process ?? joint.process, counted);
  if (!energy.known) {
    const state = endedAt === undefined ? 'running' : window === undefined ? 'not asked' : 'not given';
    return { state, counted, missing: energy.missing };
  }
  const known = { counted, energy: joulesPerMetre(energy.kilojoulesPerMillimetre), words: energy.words };
  if (window === undefined) return { state: 'not asked', ...known };
  return { state: withinWindow(known.energy, limitsOf(window)), ...known };
}

/** Nothing is melted onto the part by these. */
/** Gouging and cutting take metal away: nothing is welded over by them. */
export const isDeposited = (passKind: string): boolean => passKind !== 'gouging' && passKind !== 'thermal cutting';

const limitsOf = ({ minimumKilojoulesPerMillimetre: low, maximumKilojoulesPerMillimetre: high }: HeatWindow) => ({
  ...(low === undefined ? {} : { minimum: joulesPerMetre(low) }),
  ...(high === undefined ? {} : { maximum: joulesPerMetre(high) }),
});

function findingOf(
  state: State,
  { pass, passKind, heat: { state: stands, energy } }: PassState,
): { readonly kind: HeatFinding; readonly detail: FindingDetail } | undefined {
  const window = state.joint.procedure?.heatInput;
  const of = (kind: HeatFinding, limit?: number) => ({
    kind,
    detail: { pass, ...(energy === undefined ? {} : { value: energy }), ...(limit === undefined ? {} : { limit }) },
  });
  switch (stands) {
    case 'not given':
      return of('heat input not given');
    case 'below':
      return of('heat input below minimum', limitsOf(window!).minimum);
    case 'above':
      return of('heat input above maximum', limitsOf(window!).maximum);
    case 'not asked': {
      const basis = window === undefined && isDeposited(passKind) ? basisOf(state) : undefined;
      const isLess =
        basis !== undefined && energy !== undefined && withinWindow(energy, { minimum: basis }) === 'below';
      return isLess ? of('heat input below basis', basis) : undefined;
    }
    case 'within':
    case 'running':
      return undefined;
  }
}

/** The heat input that the minimum preheat was worked out with, where a calculation with one governs. */
function basisOf({ joint, requirement }: State) {
  const { governing, methods } = requirement;
  const isCalculated = calculated.has(governing.kind);
  const isUsed = methods.some(({ role, inputs }) => role === 'may govern' && inputs.some(({ name }) => name === 'Q'));
  const stated = heatInput(joint);
  return isCalculated && isUsed && stated.known ? joulesPerMetre(stated.input.value) : undefined;
}

const calculated: ReadonlySet<GoverningKind> = new Set(['highest method', 'binding calculation', 'no preheat needed']);

type HeatFinding = Extract<FindingKind, `heat input ${string}`>;
const isHeatFinding = (kind: FindingKind): kind is HeatFinding => kind.startsWith('heat input ');
