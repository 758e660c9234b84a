/** The window of the cooling time that the procedure allows. */
import type { Entry } from './entry.tsx';
import { Locked } from './locked.tsx';
import { NumberField } from './number-field.tsx';

export function CoolingFields({ entry }: { readonly entry: Entry }) {
  const { cooling } = entry.draft;
  return (
    <div class="fields">
      <Locked entry={entry} stated="coolingSeconds">
        <NumberField
          entry={entry}
          label="Cooling 800 to 500 °C, at least"
          unit="s"
          field="coolingSeconds.minimum"
          optional="if stated"
          value={cooling.minimum}
          onValue={(minimum) => entry.change({ cooling: { ...cooling, minimum } })}
        />
        <NumberField
          entry={entry}
          label="Cooling 800 to 500 °C, at most"
          unit="s"
          field="coolingSeconds.maximum"
          optional="if stated"
          value={cooling.maximum}
          onValue={(maximum) => entry.change({ cooling: { ...cooling, maximum } })}
        />
      </Locked>
    </div>
  );
}
