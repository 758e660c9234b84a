/** What the joint is called and of what kind it is; by which code and in which units its papers are written. */

import { codeSets } from '../../../server/weld/code.ts';
import { jointTypes } from '../../../server/weld/joint.ts';
import { begun } from '../../../server/wording/list.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import { codeAsks } from './code-asks.ts';
import { inUnits } from './draft-units.ts';
import { idOf } from './empty-draft.ts';
import type { Entry } from './entry.tsx';
import { Locked } from './locked.tsx';
import { NumberField, orNone } from './number-field.tsx';
import type { DraftUnits } from './quantity.ts';

export function IdentityFields({ entry, correcting }: { readonly entry: Entry; readonly correcting: boolean }) {
  const { draft } = entry;
  return (
    <fieldset class="group">
      <legend>Joint</legend>
      <div class="fields">
        <TextField
          label="Title"
          field="title"
          value={draft.title}
          problem={entry.problem('title')}
          onValue={(title) => {
            entry.touch('title');
            entry.change({ title, ...(draft.idTyped ? {} : { id: idOf(title) }) });
          }}
          wide
        />
        {!correcting && (
          <TextField
            label="Short name"
            hint="For addresses and files."
            field="id"
            value={draft.id}
            problem={entry.problem('id')}
            onValue={(id) => {
              entry.touch('id');
              entry.change({ id, idTyped: id !== '' });
            }}
          />
        )}
        <SelectField
          label="Type of joint"
          value={draft.jointType}
          choices={jointTypes.map((type) => ({ value: type as string, text: begun(type) }))}
          onValue={(jointType) => entry.change({ jointType })}
        />
      </div>
      <More title="Workshop, drawing, whom to call" filled={anyFilled(draft.workshop, draft.drawing, draft.contact)}>
        <div class="fields">
          <TextField
            label="Workshop"
            optional
            field="workshop"
            value={draft.workshop}
            problem={entry.problem('workshop')}
            onValue={(workshop) => entry.change({ workshop })}
          />
          <TextField
            label="Drawing"
            optional
            field="drawing"
            value={draft.drawing}
            problem={entry.problem('drawing')}
            onValue={(drawing) => entry.change({ drawing })}
          />
          <TextField
            label="Whom to call"
            hint="Printed on the card at the part."
            field="contact"
            value={draft.contact}
            problem={entry.problem('contact')}
            onValue={(contact) => entry.change({ contact })}
          />
        </div>
      </More>
    </fieldset>
  );
}

const unitChoices: readonly { readonly value: DraftUnits; readonly text: string }[] = [
  { value: 'metric', text: 'mm, °C, kJ/mm' },
  { value: 'inch', text: 'in, °F, kJ/in' },
];

export function CodeFields({ entry }: { readonly entry: Entry }) {
  const { draft } = entry;
  const asks = codeAsks(draft.codeSet);
  // A repair is held by the part around it: its restraint is never left to a fold.
  const isRestraintAsked = asks.restraint || draft.repair !== undefined;
  const restraint = (
    <ChoiceField
      label="Restraint"
      problem={entry.problem('restraint')}
      value={draft.restraint}
      choices={[
        { value: 'low', text: 'Low: parts can move' },
        { value: 'medium', text: 'Medium: held by the structure' },
        { value: 'high', text: 'High: almost no movement' },
        { value: '', text: 'Not stated' },
      ]}
      onValue={(value) => entry.change({ restraint: value })}
    />
  );
  return (
    <fieldset class="group">
      <legend>Units and code</legend>
      <ChoiceField
        label="Units of the job"
        value={draft.units}
        choices={unitChoices}
        onValue={(units) => entry.change(inUnits(draft, units))}
      />
      <p class="hint">What is typed already is converted. In inches, fractions such as 1 1/2 may be typed.</p>
      <div class="fields">
        <Locked entry={entry} stated="codeSet">
          <SelectField
            label="Code"
            field="codeSet"
            value={draft.codeSet}
            choices={orNone(codeSets, 'None: every method that applies')}
            hint="Its methods may govern and its table is a floor; other methods are shown for comparison."
            onValue={(codeSet) => entry.change({ codeSet })}
          />
        </Locked>
      </div>
      {isRestraintAsked && restraint}
      <More
        title={isRestraintAsked ? 'Restraint intensity, cracking zone' : 'Restraint'}
        about="as far as a method goes by it"
        filled={anyFilled(
          isRestraintAsked ? '' : draft.restraint,
          draft.restraintIntensity,
          draft.crackingZone,
          draft.stressConcentration,
          draft.meanStress,
          draft.glycerine,
        )}
      >
        {!isRestraintAsked && restraint}
        <div class="fields">
          <NumberField
            entry={entry}
            label="Restraint intensity"
            field="restraintIntensity"
            unit="N/mm²"
            optional="if known"
            value={draft.restraintIntensity}
            onValue={(restraintIntensity) => entry.change({ restraintIntensity })}
          />
          <SelectField
            label="Zone in AWS D1.1"
            field="crackingZone"
            hint="Read off its diagram of carbon and carbon equivalent."
            value={draft.crackingZone}
            choices={orNone(['I', 'II', 'III'])}
            onValue={(crackingZone) => entry.change({ crackingZone })}
          />
        </div>
        <p class="hint">For the cracking index of Yurioka, which only compares:</p>
        <div class="fields">
          <NumberField
            entry={entry}
            label="Stress concentration Kt"
            field="stressConcentration"
            optional="if known"
            value={draft.stressConcentration}
            onValue={(stressConcentration) => entry.change({ stressConcentration })}
          />
          <NumberField
            entry={entry}
            label="Mean stress of the weld"
            field="meanWeldStressMegapascals"
            kind="strength"
            optional="if known"
            value={draft.meanStress}
            onValue={(meanStress) => entry.change({ meanStress })}
          />
          <NumberField
            entry={entry}
            label="Hydrogen by the glycerine method"
            field="consumable.glycerineMillilitresPer100Grams"
            unit="ml/100 g"
            optional="if known"
            value={draft.glycerine}
            onValue={(glycerine) => entry.change({ glycerine })}
          />
        </div>
      </More>
    </fieldset>
  );
}
