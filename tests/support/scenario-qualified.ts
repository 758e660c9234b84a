/** "qualified: ASME IX, preheat 150, interpass 200, impact required": the test piece that qualifies a scenario's procedure. */
import { optional } from './scenario-after.ts';

export function qualificationOf(header: Map<string, string[]>): object {
  const [standard, ...rest] = header.get('qualified')?.[0]?.split(/,\s*/) ?? [];
  if (standard === undefined) return {};
  const facts = new Map(rest.map((each) => [each.split(' ')[0]!, each.split(' ').slice(1).join(' ')]));
  const number = (key: string): number | undefined => (facts.has(key) ? Number(facts.get(key)) : undefined);
  return {
    qualification: {
      record: 'Q-1',
      standard,
      ...optional({ preheatCelsius: number('preheat'), interpassCelsius: number('interpass') }),
      ...(facts.has('impact') ? { impactTests: facts.get('impact') } : {}),
      ...(facts.has('rise') ? { interpassRise: facts.get('rise') } : {}),
    },
  };
}
