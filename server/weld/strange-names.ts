/**
 * What an act names that the joint does not have: a probe, a part, an instrument of its register. Such an act would be
 * taken and mean nothing, so that every inlet refuses it. An instrument of a reading by hand may be unknown: the judge
 * says so.
 */
import type { Act } from './entry.ts';
import type { Joint } from './joint.ts';
import type { Problem } from './problems.ts';

export function strangeNames(act: Act, { probes, parts, instruments = [] }: Joint): Problem[] {
  const known = {
    probe: { names: probes.map(({ id }) => id), none: 'no probe: this joint has none' },
    part: { names: parts.map(({ id }) => id), none: 'no part: this joint has none' },
    instrument: {
      names: instruments.map(({ id }) => id),
      none: 'an instrument of this joint; it has none yet: correct the joint and add its register of instruments',
    },
  };
  return namedIn(act).flatMap(({ what, name, field }): Problem[] => {
    const { names, none } = known[what];
    if (names.includes(name)) return [];
    return [{ field, found: name, allowed: names.length === 0 ? none : `one of ${names.join(', ')}` }];
  });
}

interface Named {
  readonly what: 'probe' | 'part' | 'instrument';
  readonly name: string;
  readonly field: string;
}

function namedIn(act: Act): Named[] {
  const found: Named[] = [];
  if ('probe' in act && act.probe !== undefined) found.push({ what: 'probe', name: act.probe, field: 'act.probe' });
  if ('place' in act && act.place !== undefined)
    found.push({ what: 'part', name: act.place.part, field: 'act.place.part' });
  if (act.kind === 'spare takes over') found.push({ what: 'probe', name: act.spare, field: 'act.spare' });
  if (act.kind === 'calibration' || act.kind === 'verification' || act.kind === 'adjustment')
    found.push({ what: 'instrument', name: act.instrument, field: 'act.instrument' });
  if (act.kind !== 'ambient check') return found;
  for (const [index, { probe }] of act.rest.entries())
    found.push({ what: 'probe', name: probe, field: `act.rest.${index}.probe` });
  for (const [index, { probe, readings }] of act.touches.entries())
    for (const name of [probe, ...readings.map((each) => each.probe)])
      found.push({ what: 'probe', name, field: `act.touches.${index}.probe` });
  return found;
}
