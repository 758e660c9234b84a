/** Options of a question to a record, the same for `find` and `statistics`. */
import { readAsked } from '../past/asked.ts';
import type { Asked } from '../past/search.ts';
import { refuse } from './arguments.ts';
import type { Command, Terminal } from './command.ts';
import { zoneAsked } from './zone.ts';

export const askedOptions = {
  joint: { type: 'string' },
  part: { type: 'string' },
  heat: { type: 'string' },
  procedure: { type: 'string' },
  person: { type: 'string' },
  role: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  state: { type: 'string' },
  verdict: { type: 'string' },
  finding: { type: 'string' },
  source: { type: 'string' },
  'repair-of': { type: 'string' },
  zone: { type: 'string' },
  csv: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const askedHelp = `  --joint, --part, --heat, --procedure, --person TEXT
                          words that have to stand in that alone: part also means the steel, heat also the certificate
  --role ROLE             with --person: as what; alone: joints that had somebody in that role
  --from DAY, --to DAY    joints that were worked on between the two, as 2026-11-25, by the calendar of --zone
  --state open|closed
  --verdict VERDICT       complies, does-not-comply or cannot-be-judged; of an open joint what stands so far
  --finding KIND          joints with that finding, as "soak not met"
  --source SOURCE         measured, "not verified", simulated, replayed or imported
  --repair-of JOINT       repairs of that joint; "any" for all repairs
  --zone ZONE             calendar and clock, as Europe/Oslo; absent: those of this computer
  --csv FILE              writes them as CSV too (server/report/COLUMNS.md)
  --json                  the answer as JSON`;

type Given = { readonly [name in keyof typeof askedOptions]?: string | boolean | undefined };

/** The question, or the exit status once the terminal has been told what is wrong with it. */
export function askedOf(
  command: Pick<Command, 'name'>,
  words: readonly string[],
  { zone, csv, json: _json, 'repair-of': repairOf, ...fields }: Given,
  terminal: Terminal,
): { readonly asked: Asked; readonly zone: string; readonly csv?: string } | number {
  const inZone = zoneAsked(command, zone, terminal);
  if (typeof inZone === 'number') return inZone;
  const read = readAsked({ words: words.join(' '), ...fields, repairOf }, inZone);
  if ('problems' in read) {
    const told = read.problems.map(
      ({ field, found, allowed }) => `--${optionOf(field)}: found ${found}; allowed: ${allowed}`,
    );
    return refuse(command, told.join('\n'), terminal);
  }
  return { asked: read.asked, zone: inZone, ...(typeof csv === 'string' ? { csv } : {}) };
}

const optionOf = (field: string): string => (field === 'repairOf' ? 'repair-of' : field);
