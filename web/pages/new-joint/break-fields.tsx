/** Breaks as the procedure sees them: when a wait is one, and what is asked for before going on. */
import { inspectionRoles } from '../../../server/weld/break.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import { askChoices, type BreakDraft } from './break-draft.ts';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

export function BreakFields({ entry }: { readonly entry: Entry }) {
  const { breaks } = entry.draft;
  const set = (part: Partial<BreakDraft>): void => entry.change({ breaks: { ...breaks, ...part } });
  const asksInspection = [breaks.warm, breaks.cold].some((each) => each.includes('inspection'));
  return (
    <More
      title="Breaks"
      about="when a wait is one, and what is asked for before going on"
      filled={anyFilled(...Object.values(breaks))}
    >
      <div class="fields">
        <NumberField
          entry={entry}
          label="A break after, without a pass"
          unit="min"
          field="procedure.breaks.afterMinutes"
          optional="if stated"
          hint="Waiting to cool into the window does not count. Empty: only a break that is declared, or that got too cold."
          value={breaks.after}
          onValue={(after) => set({ after })}
        />
        <SelectField
          label="After a break that stayed warm"
          value={breaks.warm}
          choices={askChoices('Not stated: nothing beside the minimum')}
          onValue={(warm) => set({ warm })}
        />
        <SelectField
          label="After a break that got too cold"
          value={breaks.cold}
          choices={askChoices('Not stated: it cannot be judged')}
          onValue={(cold) => set({ cold })}
        />
        {asksInspection && (
          <SelectField
            label="Inspected by"
            value={breaks.by}
            choices={[
              { value: '', text: 'Anybody who may enter it' },
              ...inspectionRoles.map((role) => ({ value: role as string, text: begun(role) })),
            ]}
            onValue={(by) => set({ by })}
          />
        )}
      </div>
    </More>
  );
}
