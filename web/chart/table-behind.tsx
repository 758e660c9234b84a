/** The table behind the chart, made when it is opened and each time it is asked for anew. */

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { MilliCelsius } from '../../server/measure/quantity.ts';
import type { UnitSystem } from '../../server/measure/units.ts';
import { degreeUnit } from '../../server/wording/temperature.ts';
import { type ChartTable, tableOf } from './table.ts';
import { TableInDetails } from './table-in-details.tsx';
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
    <TableInDetails
      table={table.value}
      about={`Lowest and highest of each ${table.value?.rowLength}, ${degreeUnit(units)}, newest first.`}
      name="Temperatures as a table"
      make={make}
      onOpen={(open) => {
        opened.value = open;
      }}
      absent={<p class="empty">The history has not come yet; the table stands here when it has.</p>}
    />
  );
}
