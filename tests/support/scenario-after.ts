/** What a scenario says of the time after the last arc: its header line and its acts. */
import type { Act } from '../../server/weld/entry.ts';

/** "after: post-heating 250 for 2 at most 300 summed, wait North Sea practice, cover 100, spots": what comes after the last arc. */
export const afterFacts = (header: Map<string, string[]>): Map<string, string> =>
  new Map(
    (header.get('after')?.[0] ?? '').split(/,\s*/).map((each) => {
      const [key, ...value] = each.split(' ');
      return [key!, value.join(' ')];
    }),
  );

export function afterOf(header: Map<string, string[]>): object {
  const facts = afterFacts(header);
  const [, celsius, hours, most, summed] =
    /^([\d.]+) for ([\d.]+)(?: at most ([\d.]+))?( summed)?$/.exec(facts.get('post-heating') ?? '') ?? [];
  const postHeating = {
    ...optional({ maximumCelsius: most === undefined ? undefined : Number(most) }),
    ...(summed === undefined ? {} : { counted: 'cumulative' }),
  };
  return {
    ...(celsius === undefined
      ? {}
      : { postHeating: { celsius: Number(celsius), hours: Number(hours), ...postHeating } }),
    ...(facts.has('wait') ? { waitingEdition: facts.get('wait') } : {}),
  };
}

export function afterProcedureOf(header: Map<string, string[]>): object {
  const facts = afterFacts(header);
  const number = (key: string): number | undefined => (facts.has(key) ? Number(facts.get(key)) : undefined);
  return {
    ...optional({
      heatingMaximumKelvinPerHour: number('heating'),
      coolingMaximumKelvinPerHour: number('cooling'),
      ratesAboveCelsius: number('above'),
      coveredToCelsius: number('cover'),
      coolBeforeHeatTreatmentCelsius: number('cool'),
      heatTreatmentWithinHours: number('within'),
      ambientCelsius: number('ambient'),
    }),
    ...(facts.has('spots') ? { probeSpots: 'examined' } : {}),
  };
}

/** Undefined for the verbs of other acts. */
export function afterActOf(verb: string, rest: readonly string[]): Act | undefined {
  if (verb === 'complete') return { kind: 'welding complete' };
  if (verb === 'post-heating') return { kind: 'post-heating', state: rest[0] as 'begun' | 'ended' };
  if (verb === 'cover') return { kind: 'cover', state: rest[0] as 'on' | 'off' };
  if (verb === 'treat') return { kind: 'heat treatment begun' };
  if (verb === 'test') return { kind: 'testing begun', method: rest[0]! };
  if (verb === 'spot') {
    const result = rest[1] === 'bad' ? 'indication' : 'no indication';
    return { kind: 'spot examined', probe: rest[0]!, method: 'MT', result };
  }
  return undefined;
}

export const optional = (facts: Record<string, number | undefined>): Record<string, number | undefined> =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
