/** The table behind the map, made when it is opened. */
import { useSignal } from '@preact/signals';
import type { WallTable } from './table-model.ts';

export function TableOfWall({
  make,
  unit,
  part,
}: {
  readonly make: () => WallTable;
  readonly unit: string;
  readonly part: string;
}) {
  const table = useSignal<WallTable | undefined>(undefined);
  return (
    <details
      class="behind"
      onToggle={(event) => {
        if (event.currentTarget.open) table.value = make();
      }}
    >
      <summary>The same as a table</summary>
      {table.value !== undefined && (
        <>
          <div class="row wrap">
            <p class="aside">Likely temperatures, {unit}, newest first.</p>
            <button
              type="button"
              class="plain"
              onClick={() => {
                table.value = make();
              }}
            >
              Bring up to date
            </button>
          </div>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable by keyboard */}
          <section class="scroll" aria-label={`Temperatures through ${part} as a table`} tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Time</th>
                  {table.value.heads.map((head) => (
                    <th scope="col" key={head}>
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {table.value.rows.map(({ time, cells }) => (
                  <tr key={time}>
                    <th scope="row">{time}</th>
                    {cells.map((cell, index) => (
                      <td key={table.value?.heads[index]}>{cell}</td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      )}
    </details>
  );
}
