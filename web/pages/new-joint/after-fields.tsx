/** What happens once the weld is made: post-heating, rates, cooling and spots as the procedure asks for them, and the rule for the wait before testing. */
import { waitingEditions } from '../../../server/weld/code.ts';
import { ChoiceField, SelectField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import type { JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { Locked } from './locked.tsx';
import { NumberField, orNone } from './number-field.tsx';

type After = JointDraft['afterWelding'];
type Measure = { readonly kind: 'temperature' | 'difference' } | { readonly unit: string };

export function AfterFields({ entry }: { readonly entry: Entry }) {
  const { postHeating, afterWelding, waitingEdition, procedure } = entry.draft;
  const setPostHeating = (part: Partial<typeof postHeating>): void =>
    entry.change({ postHeating: { ...postHeating, ...part } });
  const setAfter = (part: Partial<After>): void => entry.change({ afterWelding: { ...afterWelding, ...part } });
  const asked = (label: string, field: string, name: keyof After, measure: Measure, hint?: string) => (
    <NumberField
      entry={entry}
      label={label}
      {...measure}
      field={`procedure.${field}`}
      optional="if stated"
      {...(hint === undefined ? {} : { hint })}
      value={afterWelding[name]}
      onValue={(value) => setAfter({ [name]: value })}
    />
  );
  return (
    <More
      title="After welding"
      about="post-heating, rates, slow cooling, waiting time before testing"
      filled={anyFilled(...Object.values(postHeating), ...Object.values(afterWelding), waitingEdition)}
    >
      <div class="fields">
        <Locked entry={entry} stated="postHeating">
          <NumberField
            entry={entry}
            label="Post-heating at"
            kind="temperature"
            field="postHeating.celsius"
            optional="if stated"
            value={postHeating.temperature}
            onValue={(temperature) => setPostHeating({ temperature })}
          />
          <NumberField
            entry={entry}
            label="Post-heating for"
            unit="h"
            field="postHeating.hours"
            optional="if stated"
            value={postHeating.hours}
            onValue={(hours) => setPostHeating({ hours })}
          />
          {anyFilled(postHeating.temperature, postHeating.hours) && (
            <>
              <NumberField
                entry={entry}
                label="Post-heating, at most"
                kind="temperature"
                field="postHeating.maximumCelsius"
                optional="if stated"
                value={postHeating.maximum}
                onValue={(maximum) => setPostHeating({ maximum })}
              />
              <SelectField
                label="Its time counts"
                value={postHeating.counted}
                choices={[
                  { value: '', text: 'Without a break' },
                  { value: 'cumulative', text: 'Summed over stretches' },
                ]}
                onValue={(counted) => setPostHeating({ counted })}
              />
            </>
          )}
        </Locked>
        <Locked entry={entry} stated="waitingEdition">
          <SelectField
            label="Wait before testing by"
            field="waitingEdition"
            value={waitingEdition}
            choices={orNone(waitingEditions)}
            onValue={(value) => entry.change({ waitingEdition: value })}
          />
        </Locked>
      </div>
      {procedure.bound && (
        <Locked entry={entry}>
          <div class="fields">
            {asked(
              'Heating, at most',
              'heatingMaximumKelvinPerHour',
              'heatingRate',
              { kind: 'difference' },
              'Per hour.',
            )}
            {asked(
              'Cooling, at most',
              'coolingMaximumKelvinPerHour',
              'coolingRate',
              { kind: 'difference' },
              'Per hour.',
            )}
            {asked(
              'Rates count from',
              'ratesAboveCelsius',
              'ratesAbove',
              { kind: 'temperature' },
              'Empty: at all temperatures.',
            )}
            {asked('Covered down to', 'coveredToCelsius', 'coveredTo', { kind: 'temperature' })}
            {asked(
              'Cool to before heat treatment',
              'coolBeforeHeatTreatmentCelsius',
              'coolBefore',
              { kind: 'temperature' },
              'Steels that have to become martensite first.',
            )}
            {asked('Heat treatment within', 'heatTreatmentWithinHours', 'within', { unit: 'h' })}
            {asked(
              'The wait counts from',
              'ambientCelsius',
              'ambient',
              { kind: 'temperature' },
              'Empty: from the end of welding.',
            )}
          </div>
          <ChoiceField
            label="Spots of probes that were welded on"
            value={afterWelding.spots}
            choices={[
              { value: 'examined', text: 'Ground and examined before closing' },
              { value: '', text: 'Not asked for' },
            ]}
            onValue={(spots) => setAfter({ spots })}
          />
        </Locked>
      )}
    </More>
  );
}
