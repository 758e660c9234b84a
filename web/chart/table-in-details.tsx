/** A table of what a picture shows, folded behind it: made when it is opened, and anew when it is asked for. */
import type { ComponentChildren } from 'preact';
import type { TimeTable } from './table.ts';

interface Props {
  readonly table: TimeTable | undefined;
  /** What its numbers are. */
  readonly about: string;
  /** Its name, read out. */
  readonly name: string;
  readonly make: () => void;
  readonly onOpen?: (open: boolean) => void;
  /** Stands in its place while there is none. */
  readonly absent?: ComponentChildren;
}

export function TableInDetails({ table, about, name, make, onOpen, absent }: Props) {
  return (
    <details
      class="behind"
      onToggle={(event) => {
        const { open } = event.currentTarget;
        onOpen?.(open);
        if (open) make();
      }}
    >
      <summary>The same as a table</summary>
      {table === undefined ? (
        absent
      ) : (
        <>
          <div class="row wrap">
            <p class="aside">{about}</p>
            <button type="button" class="plain" onClick={make}>
              Bring up to date
            </button>
          </div>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable by keyboard */}
          <section class="scroll" aria-label={name} tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Time</th>
                  {table.heads.map((head) => (
                    <th scope="col" key={head}>
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {table.rows.map(({ time, cells }) => (
                  <tr key={time}>
                    <th scope="row">{time}</th>
                    {cells.map((cell, index) => (
                      <td key={table.heads[index]} class={cell === 'no reading' ? 'missing' : ''}>
                        {cell}
                      </td>
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
