/** How the joint is welded: process, consumable with its hydrogen, heat input, and what its cooling is asked about. */

import { jointSchema } from '../../../server/weld/joint.ts';
import { consumableSchema, processes } from '../../../server/weld/welding.ts';
import { begun } from '../../../server/wording/list.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import { AnalysisFields } from './analysis-fields.tsx';
import { CoolingFields } from './cooling-fields.tsx';
import type { JointDraft } from './draft.ts';
import { emptyAnalysis } from './empty-draft.ts';
import type { Entry } from './entry.tsx';
import { HeatInputFields } from './heat-input-fields.tsx';
import { NumberField, orNone } from './number-field.tsx';

/** ISO 4063 reference numbers in words. */
const processNames: Readonly<Record<(typeof processes)[number], string>> = {
  '111': '111 manual metal arc, covered electrode',
  '114': '114 self-shielded tubular wire',
  '121': '121 submerged arc, solid wire',
  '131': '131 MIG, solid wire',
  '135': '135 MAG, solid wire',
  '136': '136 MAG, flux-cored wire',
  '137': '137 MIG, flux-cored wire',
  '138': '138 MAG, metal-cored wire',
  '141': '141 TIG, solid filler',
  '15': '15 plasma arc',
};

const hydrogenClasses = ['H2', 'H4', 'H5', 'H8', 'H10', 'H15', 'H16'];
const deposits = consumableSchema.shape.deposit.unwrap().options;
const weldShapes = jointSchema.shape.weldShape.unwrap().options;

export function WeldingFields({ entry }: { readonly entry: Entry }) {
  const { draft } = entry;
  const { hydrogen } = draft;
  const setHydrogen = (part: Partial<JointDraft['hydrogen']>): void =>
    entry.change({ hydrogen: { ...hydrogen, ...part } });
  return (
    <fieldset class="group">
      <legend>Welding</legend>
      <div class="fields">
        <SelectField
          label="Process (ISO 4063)"
          field="process"
          value={draft.process}
          choices={processes.map((process) => ({ value: process as string, text: processNames[process] }))}
          onValue={(process) => entry.change({ process })}
        />
        <TextField
          label="Consumable"
          optional
          value={draft.designation}
          problem={entry.problem('consumable.designation')}
          onValue={(designation) => entry.change({ designation })}
        />
      </div>
      <ChoiceField
        label="Diffusible hydrogen of the consumable"
        value={hydrogen.how}
        choices={[
          { value: 'class', text: 'Class' },
          { value: 'measured', text: 'ml per 100 g' },
          { value: 'not stated', text: 'Not stated' },
        ]}
        problem={entry.problem('consumable.hydrogen')}
        onValue={(how) => setHydrogen({ how })}
      />
      {hydrogen.how !== 'not stated' && (
        <div class="fields">
          {hydrogen.how === 'class' ? (
            <SelectField
              label="Class (ISO 3690)"
              value={hydrogen.class}
              choices={hydrogenClasses.map((each) => ({ value: each, text: each }))}
              onValue={(value) => setHydrogen({ class: value })}
            />
          ) : (
            <NumberField
              entry={entry}
              label="Hydrogen"
              unit="ml/100 g"
              field="consumable.hydrogen.millilitresPer100Grams"
              value={hydrogen.millilitres}
              onValue={(millilitres) => setHydrogen({ millilitres })}
            />
          )}
        </div>
      )}
      <HeatInputFields entry={entry} />
      <WeldFields entry={entry} />
      <WeldMetal entry={entry} />
    </fieldset>
  );
}

function WeldFields({ entry }: { readonly entry: Entry }) {
  const { draft } = entry;
  const { cooling } = draft;
  return (
    <More
      title="Deposit, weld shape and size, cooling time"
      filled={anyFilled(draft.deposit, draft.weldShape, draft.weldSize, cooling.minimum, cooling.maximum)}
    >
      <div class="fields">
        <SelectField
          label="Deposit"
          hint="Not stated counts as ferritic."
          field="consumable.deposit"
          value={draft.deposit}
          choices={orNone(deposits, 'not stated', begun)}
          onValue={(deposit) => entry.change({ deposit })}
        />
        <SelectField
          label="Shape of the weld"
          hint="For its cooling time."
          field="weldShape"
          value={draft.weldShape}
          choices={orNone(weldShapes, 'not stated', begun)}
          onValue={(weldShape) => entry.change({ weldShape })}
        />
        <NumberField
          entry={entry}
          label="Size of the weld"
          hint="Throat or depth; empty: the thickest part."
          kind="length"
          field="weldSizeMillimetres"
          optional="if stated"
          value={draft.weldSize}
          onValue={(weldSize) => entry.change({ weldSize })}
        />
      </div>
      <CoolingFields entry={entry} />
    </More>
  );
}

function WeldMetal({ entry }: { readonly entry: Entry }) {
  const [analysis] = entry.draft.weldMetal;
  if (analysis === undefined)
    return (
      <button
        type="button"
        class="plain"
        onClick={() => entry.change({ weldMetal: [{ ...emptyAnalysis, origin: 'product analysis' }] })}
      >
        Add the analysis of the weld metal
      </button>
    );
  return (
    <div class="nested">
      <div class="row">
        <h3>Analysis of the all-weld metal, percent by mass</h3>
        <span class="grow" />
        <button type="button" class="plain" onClick={() => entry.change({ weldMetal: [] })}>
          Remove
        </button>
      </div>
      <AnalysisFields
        entry={entry}
        analysis={analysis}
        path="consumable.weldMetal"
        onChange={(next) => entry.change({ weldMetal: [next] })}
      />
    </div>
  );
}
