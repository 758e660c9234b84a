/** Plain tables of counts; each says how it is made. Long ones show their first rows until the rest is asked for. */
import type { Row } from '../../../server/past/statistics.ts';
import { begun } from '../../../server/wording/list.ts';
import { verdictHeadline } from '../../../server/wording/words.ts';
import { useShorter } from '../../parts/shorter.tsx';

const verdicts = ['complies', 'does-not-comply', 'cannot-be-judged'] as const;

interface VerdictTableProps {
  readonly title: string;
  readonly how: string;
  readonly rows: readonly Row[];
  readonly more?: { readonly names: readonly string[]; readonly cells: (index: number) => readonly string[] };
}

export const VerdictTable = ({ title, how, rows, more }: VerdictTableProps) => (
  <CountTable
    title={title}
    how={how}
    columns={[title.replace(/^By /, ''), ...verdicts.map(verdictHeadline), 'n', ...(more?.names ?? [])]}
    rows={rows.map((row, index) => [
      row.name,
      ...verdicts.map((verdict) => `${row[verdict]}`),
      `${row.n}`,
      ...(more?.cells(index) ?? []),
    ])}
  />
);

interface CountTableProps {
  readonly title: string;
  readonly how: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export function CountTable({ title, how, columns, rows }: CountTableProps) {
  const [shown, toggle] = useShorter(rows, 'rows', 'the first');
  if (rows.length === 0) return null;
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      <p class="aside">{how}</p>
      <div class="scroll-x">
        <table>
          <thead>
            <tr>
              {columns.map((name, index) => (
                <th key={name} scope="col" class={index > 0 && isNumber(rows[0]?.[index]) ? 'number' : undefined}>
                  {name === 'n' ? name : begun(name)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={row[0]}>
                {row.map((cell, index) =>
                  index === 0 ? (
                    <th key={columns[index]} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={columns[index]} class={isNumber(cell) ? 'number' : undefined}>
                      {cell}
                    </td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {toggle}
    </section>
  );
}

const isNumber = (cell: string | undefined): boolean => cell !== undefined && /^\d+$/.test(cell);
