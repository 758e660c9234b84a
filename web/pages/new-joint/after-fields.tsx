/** What happens once the weld is made: post-heating as the procedure asks for it, and the rule for the wait before testing. */
import { waitingEditions } from '../../../server/weld/joint.ts';
import { SelectField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import type { Entry } from './entry.tsx';
import { NumberField, orNone } from './number-field.tsx';

export function AfterFields({ entry }: { readonly entry: Entry }) {
  const { postHeating, waitingEdition } = entry.draft;
  return (
    <More
      title="After welding"
      about="post-heating, waiting time before testing"
      filled={anyFilled(postHeating.temperature, postHeating.hours, waitingEdition)}
    >
      <div class="fields">
        <NumberField
          entry={entry}
          label="Post-heating at"
          kind="temperature"
          field="postHeating.celsius"
          optional="if stated"
          value={postHeating.temperature}
          onValue={(temperature) => entry.change({ postHeating: { ...postHeating, temperature } })}
        />
        <NumberField
          entry={entry}
          label="Post-heating for"
          unit="h"
          field="postHeating.hours"
          optional="if stated"
          value={postHeating.hours}
          onValue={(hours) => entry.change({ postHeating: { ...postHeating, hours } })}
        />
        <SelectField
          label="Wait before testing by"
          field="waitingEdition"
          value={waitingEdition}
          choices={orNone(waitingEditions)}
          onValue={(value) => entry.change({ waitingEdition: value })}
        />
      </div>
    </More>
  );
}
