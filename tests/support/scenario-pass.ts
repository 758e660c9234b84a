/** What a scenario says of passes: the window of the procedure in its header, and the details in its acts. */
import { after, type Instant } from '../../server/measure/quantity.ts';
import type { Act } from '../../server/weld/entry.ts';
import { type PassDetails, passDetailsSchema } from '../../server/weld/pass-acts.ts';
import { optional } from './scenario-after.ts';

/** "passes: heat input 0.8 to 1.6", "passes: arc energy at most 1.6": what the procedure states of passes. */
export function passProcedureOf(header: Map<string, string[]>): object {
  const line = header.get('passes')?.[0] ?? '';
  const [, counted, low, high] = /(heat input|arc energy)(?: ([\d.]+) to)?(?: at most)? ([\d.]+)/.exec(line) ?? [];
  const [, every] = /every (\S+)/.exec(line) ?? [];
  const interpassEvery =
    every === undefined ? {} : { interpassEvery: every === 'revolution' ? every : { minutes: Number(every) } };
  if (counted === undefined) return interpassEvery;
  const window = { minimumKilojoulesPerMillimetre: low, maximumKilojoulesPerMillimetre: high };
  return {
    ...interpassEvery,
    heatInput: {
      counted,
      ...optional(
        Object.fromEntries(
          Object.entries(window).map(([key, text]) => [key, text === undefined ? undefined : Number(text)]),
        ),
      ),
    },
  };
}

/** "24 V 160 A 3 mm/s layer 2 process 141": pairs of a number and its unit, and of a name and its word. */
function detailsIn(words: readonly string[]): PassDetails {
  const pairs = Array.from({ length: words.length / 2 }, (_, index) => words.slice(2 * index, 2 * index + 2));
  const details = Object.fromEntries(
    pairs.map(([first, second]) => (second! in units ? [units[second!], Number(first)] : [first, second])),
  );
  if (pairs.length === 0) return {};
  const {
    kind: _kind,
    pass: _pass,
    ...read
  } = passDetailsSchema.parse({ kind: 'pass details', pass: '1', ...details });
  return read;
}

const units: Readonly<Record<string, string>> = {
  V: 'volts',
  A: 'amperes',
  'mm/s': 'millimetresPerSecond',
  mm: 'runOutMillimetres',
  s: 'arcSeconds',
  J: 'instantaneousJoules',
};

/** Undefined for the verbs of other acts. */
export function passActOf(verb: string, rest: readonly string[], start: Instant): Act | undefined {
  const [pass, ...words] = rest;
  if (verb === 'end') return { kind: 'pass end', pass: pass!, ...detailsIn(words) };
  if (verb === 'details') return { kind: 'pass details', pass: pass!, ...detailsIn(words) };
  if (verb === 'turn') return { kind: 'pass details', pass: pass!, revolutionSeconds: Number(words[0]) };
  if (verb === 'strike') return { kind: 'correct pass', pass: pass!, struck: true, reason: 'never welded' };
  if (verb === 'correct') return corrected(pass!, words, start);
  return undefined;
}

/** "correct 1 begun 1:00 ended 3:00 name 2 26 V". */
function corrected(pass: string, words: readonly string[], start: Instant): Act {
  const right: Record<string, unknown> = {};
  const rest = [...words];
  const own: Readonly<Record<string, string>> = {
    begun: 'startedAt',
    ended: 'endedAt',
    name: 'name',
    welder: 'welder',
  };
  while (rest[0] !== undefined && rest[0] in own) {
    const [word, value] = rest.splice(0, 2);
    right[own[word!]!] = word === 'begun' || word === 'ended' ? after(start, clock(value!)) : value;
  }
  return { kind: 'correct pass', pass, ...right, ...detailsIn(rest), reason: 'a slip' };
}

/** "1:05" and "0:01:05" in milliseconds. */
export const clock = (text: string): number => {
  const parts = text.split(':').map(Number);
  return parts.reduce((sum, each) => sum * 60 + each, 0) * 1000;
};
