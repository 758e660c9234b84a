/** The table behind the map, made when it is opened. */
import { useSignal } from '@preact/signals';
import type { TimeTable } from '../../chart/table.ts';
import { TableInDetails } from '../../chart/table-in-details.tsx';

interface Props {
  readonly make: () => TimeTable;
  readonly unit: string;
  readonly part: string;
}

export function TableOfWall({ make, unit, part }: Props) {
  const table = useSignal<TimeTable | undefined>(undefined);
  return (
    <TableInDetails
      table={table.value}
      about={`Likely temperatures, ${unit}, newest first.`}
      name={`Temperatures through ${part} as a table`}
      make={() => {
        table.value = make();
      }}
    />
  );
}
