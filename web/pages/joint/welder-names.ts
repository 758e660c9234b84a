/** Names for the welder of a pass, so that few have to be typed: those of earlier passes, newest first, then who can sign on here. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { person } from '../../state/person.ts';
import { signOn } from '../../state/sign-on.ts';

export function welderNames({ passes }: Pick<Assessment, 'passes'>): readonly string[] {
  const here = signOn.value?.byPin.map(({ name }) => name) ?? [];
  const now = person.value === undefined ? [] : [person.value.name];
  return [...new Set([...passes.map(({ welder }) => welder).toReversed(), ...now, ...here])];
}
