/** Every input of the working, once, with where it comes from: those of all parts first, then of each part. */
import type { Requirement, WorkingInput } from '../../metallurgy/answer.ts';
import { plain } from '../../metallurgy/number.ts';
import { listText } from '../../wording/list.ts';
import type { Block } from '../page-model.ts';

export const whatWentIn = ({ equivalents, methods }: Requirement): Block => ({
  kind: 'table',
  caption: 'What went in, and where it comes from',
  columns: [
    { heading: 'Part', share: 3 },
    { heading: 'Input', share: 14 },
    { heading: 'From', share: 7 },
  ],
  rows: rowsOf([...equivalents, ...methods]),
  empty: 'Nothing could go in: the facts that the methods ask for are missing.',
});

type Worked = { readonly part: string; readonly inputs: readonly WorkingInput[] };

/** One row for each origin, with the quantities that come from it; parts with the same row share it. */
function rowsOf(all: readonly Worked[]): string[][] {
  const partsOf = new Map<string, { input: WorkingInput; parts: Set<string> }>();
  for (const { part, inputs } of all) {
    for (const input of inputs) {
      const key = `${input.name} ${input.value} ${input.unit} ${input.from}`;
      const known = partsOf.get(key) ?? { input, parts: new Set<string>() };
      known.parts.add(part);
      partsOf.set(key, known);
    }
  }
  const rows = new Map<string, { parts: string; from: string; texts: string[] }>();
  for (const { input, parts } of partsOf.values()) {
    const key = `${[...parts].join(' ')} ${input.from}`;
    const row = rows.get(key) ?? { parts: listText([...parts]), from: input.from, texts: [] };
    row.texts.push(`${input.name} ${plain(input.value)} ${input.unit}`.trim());
    rows.set(key, row);
  }
  return [...rows.values()].map(({ parts, from, texts }) => [parts, texts.join(', '), from]);
}
