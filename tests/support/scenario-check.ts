/** The check at ambient as a judgement scenario says it. */
import type { Instant } from '../../server/measure/quantity.ts';
import type { Act } from '../../server/weld/entry.ts';

/**
 * "check air 20 T1 20.1 +2.2 T2 20.0 T1 T3 - 0": each probe with what it reads at rest ("-": nothing), and by how many
 * kelvin it moves when it is warmed by hand, or which other one moves in its stead by 2 K; "untouched" leaves it out.
 */
export function checkOf([, air, ...cells]: string[], start: Instant): Act {
  const found = Array.from({ length: cells.length / 3 }, (_, index) => cells.slice(3 * index, 3 * index + 3));
  const atRest = new Map(found.map(([probe, celsius]) => [probe!, Number(celsius)]));
  return {
    kind: 'ambient check',
    airCelsius: Number(air),
    rest: found.map(([probe, celsius]) => ({
      probe: probe!,
      ...(celsius === '-' ? {} : { celsius: Number(celsius) }),
    })),
    touches: found
      .filter(([, , move]) => move !== 'untouched')
      .map(([probe, , move], index) => {
        const other = atRest.has(move!) ? move! : undefined;
        const moved = { probe: other ?? probe!, kelvin: other === undefined ? Number(move) : 2 };
        const fromCelsius = atRest.get(moved.probe)!;
        return {
          probe: probe!,
          way: 'warmed' as const,
          from: start + index * 1000 + 1,
          until: start + index * 1000 + 900,
          readings: [{ probe: moved.probe, fromCelsius, toCelsius: fromCelsius + moved.kelvin }],
        };
      }),
  };
}
