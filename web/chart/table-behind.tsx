/** The table behind the chart, made when it is opened and each time it is asked for anew. */

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { MilliCelsius } from '../../server/measure/quantity.ts';
import type { UnitSystem } from '../../server/measure/units.ts';
import { degreeUnit } from '../../server/wording/temperature.ts';
import { type ChartTable, tableOf } from './table.ts';
import type { Tracks } from './tracks.ts';
import type { Stretch } from './window.ts';

interface Props {
  readonly tracks: () => Tracks | undefined;
  readonly probes: readonly string[];
  readonly stretch: () => Stretch;
  readonly limits: readonly MilliCelsius[];
  readonly units: UnitSystem;
  /** Grows when the tracks have come or were replaced. */
  readonly arrived: number;
}

export function TableBehind({ tracks, probes, stretch, limits, units, arrived }: Props) {
  const table = useSignal<ChartTable | undefined>(undefined);
  const opened = useSignal(false);
  const make = (): void => {
    const mine = tracks();
    if (mine !== undefined) table.value = tableOf(mine, probes, stretch(), limits, units, 40);
  };
  // Opened before the history has come, it fills when it comes.
  useEffect(() => {
    if (opened.value && table.value === undefined) make();
  }, [arrived]);
  return (
    <details
      class="behind"
      onToggle={(event) => {
        opened.value = event.currentTarget.open;
        if (opened.value) make();
      }}
    >
      <summary>The same as a table</summary>
      {table.value === undefined && (
        <p class="empty">The history has not come yet; the table stands here when it has.</p>
      )}
      {table.value !== undefined && (
        <>
          <div class="row wrap">
            <p class="aside">
              Lowest and highest of each {table.value.rowLength}, {degreeUnit(units)}, newest first.
            </p>
            <button type="button" class="plain" onClick={make}>
              Bring up to date
            </button>
          </div>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region must be reachable by keyboard */}
          <section class="scroll" aria-label="Temperatures as a table" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Time</th>
                  {table.value.probes.map((probe) => (
                    <th scope="col" key={probe}>
                      {probe}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {table.value.rows.map((row) => (
                  <tr key={row.time}>
                    <th scope="row">{row.time}</th>
                    {row.cells.map((cell, index) => (
                      <td key={table.value?.probes[index]} class={cell === 'no reading' ? 'missing' : ''}>
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
