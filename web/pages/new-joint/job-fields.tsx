/** What the joint is, how it is welded and heated, and what procedure and code ask. */

import { jointTypes, processes } from '../../../server/weld/joint.ts';
import { faces } from '../../../server/weld/probe.ts';
import { begun } from '../../../server/wording/list.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { AnalysisFields } from './analysis-fields.tsx';
import { emptyAnalysis, idOf, type JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';

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

const means = ['resistance pads', 'induction', 'gas torch', 'infrared', 'furnace', 'other'];
const hydrogenClasses = ['H2', 'H4', 'H5', 'H8', 'H10', 'H15', 'H16'];

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
        <TextField
          label="Workshop"
          optional
          value={draft.workshop}
          problem={entry.problem('workshop')}
          onValue={(workshop) => entry.change({ workshop })}
        />
        <TextField
          label="Drawing"
          optional
          value={draft.drawing}
          problem={entry.problem('drawing')}
          onValue={(drawing) => entry.change({ drawing })}
        />
      </div>
    </fieldset>
  );
}

export function WeldingFields({ entry }: { readonly entry: Entry }) {
  const { draft } = entry;
  const { hydrogen, heatInput, heating } = draft;
  const setHydrogen = (part: Partial<JointDraft['hydrogen']>): void =>
    entry.change({ hydrogen: { ...hydrogen, ...part } });
  const setHeat = (part: Partial<JointDraft['heatInput']>): void =>
    entry.change({ heatInput: { ...heatInput, ...part } });
  const setHeating = (part: Partial<JointDraft['heating']>): void => entry.change({ heating: { ...heating, ...part } });
  const number = (label: string, unit: string, field: string, value: string, set: (value: string) => void) => (
    <TextField
      label={label}
      kind="number"
      unit={unit}
      field={field}
      value={value}
      problem={entry.problem(field)}
      onValue={(next) => {
        entry.touch(field);
        set(next);
      }}
    />
  );
  return (
    <>
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
        <div class="fields">
          {hydrogen.how === 'class' && (
            <SelectField
              label="Class (ISO 3690)"
              value={hydrogen.class}
              choices={hydrogenClasses.map((each) => ({ value: each, text: each }))}
              onValue={(value) => setHydrogen({ class: value })}
            />
          )}
          {hydrogen.how === 'measured' &&
            number(
              'Hydrogen',
              'ml/100 g',
              'consumable.hydrogen.millilitresPer100Grams',
              hydrogen.millilitres,
              (millilitres) => setHydrogen({ millilitres }),
            )}
        </div>
        <ChoiceField
          label="Heat input"
          value={heatInput.how}
          choices={[
            { value: 'energy', text: 'kJ per mm' },
            { value: 'arc', text: 'Volts, amperes, speed' },
            { value: 'not stated', text: 'Not stated' },
          ]}
          problem={entry.problem('heatInput')}
          onValue={(how) => setHeat({ how })}
        />
        <div class="fields">
          {heatInput.how === 'energy' &&
            number('Heat input', 'kJ/mm', 'heatInput.kilojoulesPerMillimetre', heatInput.kilojoules, (kilojoules) =>
              setHeat({ kilojoules }),
            )}
          {heatInput.how === 'arc' && (
            <>
              {number('Voltage', 'V', 'heatInput.volts', heatInput.volts, (volts) => setHeat({ volts }))}
              {number('Current', 'A', 'heatInput.amperes', heatInput.amperes, (amperes) => setHeat({ amperes }))}
              {number('Travel speed', 'mm/s', 'heatInput.millimetresPerSecond', heatInput.speed, (speed) =>
                setHeat({ speed }),
              )}
            </>
          )}
        </div>
        {draft.weldMetal[0] === undefined ? (
          <button
            type="button"
            class="plain"
            onClick={() => entry.change({ weldMetal: [{ ...emptyAnalysis, origin: 'product analysis' }] })}
          >
            Add the analysis of the weld metal
          </button>
        ) : (
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
              analysis={draft.weldMetal[0]}
              path="consumable.weldMetal"
              onChange={(analysis) => entry.change({ weldMetal: [analysis] })}
            />
          </div>
        )}
      </fieldset>
      <fieldset class="group">
        <legend>Heating</legend>
        <div class="fields">
          <SelectField
            label="Means"
            value={heating.means}
            choices={means.map((each) => ({ value: each, text: begun(each) }))}
            onValue={(value) => setHeating({ means: value })}
          />
          <SelectField
            label="Heated face"
            value={heating.face}
            choices={[...faces, 'both'].map((each) => ({ value: each as string, text: begun(each) }))}
            onValue={(face) => setHeating({ face })}
          />
          <SelectField
            label="While welding"
            value={heating.whileWelding}
            choices={[
              { value: 'off', text: 'Heat off' },
              { value: 'on', text: 'Heat on' },
            ]}
            onValue={(whileWelding) => setHeating({ whileWelding })}
          />
        </div>
        <p class="hint">
          Front is the face toward the welder. Where you can, heat from one face and measure on the other.
        </p>
      </fieldset>
    </>
  );
}
