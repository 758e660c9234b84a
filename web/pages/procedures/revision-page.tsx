/** Recording a revision: the form begins with the newest one, and shows what will have changed. */
import { codeSets } from '../../../server/weld/code.ts';
import { rolesText } from '../../../server/wording/duty.ts';
import { ChoiceField, SelectField, TextArea, TextField } from '../../parts/field.tsx';
import { useTitle } from '../../parts/title.ts';
import { AfterFields } from '../new-joint/after-fields.tsx';
import { CoolingFields } from '../new-joint/cooling-fields.tsx';
import { inUnits } from '../new-joint/draft-units.ts';
import type { Entry } from '../new-joint/entry.tsx';
import { orNone } from '../new-joint/number-field.tsx';
import { OpenFile } from '../new-joint/open-file.tsx';
import { ProcedureValues } from '../new-joint/procedure-values.tsx';
import type { DraftUnits } from '../new-joint/quantity.ts';
import { StillWrong } from '../new-joint/still-wrong.tsx';
import { Changes } from './changes.tsx';
import { useRevision } from './use-revision.ts';

export function RevisionPage({ of }: { readonly of?: string }) {
  const title = of === undefined ? 'New procedure' : `New revision of ${of}`;
  useTitle(title);
  const form = useRevision(of);
  const { entry, before, candidate, problems, reason } = form;
  return (
    <form
      class="entering"
      aria-labelledby="revision-title"
      onSubmit={(event) => {
        event.preventDefault();
        void form.record();
      }}
    >
      <div class="joint-head">
        <h1 id="revision-title">{title}</h1>
        <p class="aside">
          {before === undefined
            ? 'What you type is kept on this device until it is recorded.'
            : `Begun from revision ${before.revision.procedure.revision}. That one stays as it is.`}
        </p>
        <span class="grow" />
        <div class="row wrap">
          <OpenFile what="a procedure file" open={form.open} />
          <button type="button" class="plain" onClick={form.startOver}>
            Start over
          </button>
        </div>
      </div>
      <div class="entering-form">
        <Head entry={entry} fixed={of !== undefined} />
        <fieldset class="group">
          <legend>Values</legend>
          <p class="hint">What stays empty is not stated, and is not judged.</p>
          <ProcedureValues entry={entry} />
          <CoolingFields entry={entry} />
          <AfterFields entry={entry} />
        </fieldset>
      </div>
      <section class="sheet finish">
        {before !== undefined && candidate.ok && (
          <>
            <h2>What changes</h2>
            <Changes before={before.revision} after={candidate.revision} units={unitsIn(entry)} />
          </>
        )}
        <TextArea
          label={form.reasonNeeded ? 'Why' : 'Remark'}
          field="reason"
          optional={!form.reasonNeeded && 'if stated'}
          problem={form.reasonNeeded ? undefined : entry.problem('reason')}
          value={reason.value}
          onValue={(value) => {
            reason.value = value;
            entry.touch('reason');
          }}
        />
        <StillWrong problems={form.tried ? problems : {}} failure={form.failure} />
        <p class="hint">For {rolesText('procedure')}. Once recorded, a revision is never changed.</p>
        <button type="submit" class="act large" disabled={form.sending}>
          {form.sending ? 'Sending' : 'Record in my name'}
        </button>
      </section>
    </form>
  );
}

const unitsIn = ({ draft }: Entry) => (draft.units === 'inch' ? 'inch' : 'metric');

function Head({ entry, fixed }: { readonly entry: Entry; readonly fixed: boolean }) {
  const { draft } = entry;
  const named = (label: string, name: 'id' | 'revision', hint: string) => (
    <TextField
      label={label}
      hint={hint}
      field={`procedure.${name}`}
      value={draft.procedure[name]}
      problem={entry.problem(`procedure.${name}`)}
      onValue={(value) => {
        entry.touch(`procedure.${name}`);
        entry.change({ procedure: { ...draft.procedure, [name]: value } });
      }}
    />
  );
  return (
    <fieldset class="group">
      <legend>Procedure</legend>
      <ChoiceField
        label="Units to type in"
        value={draft.units === 'inch' ? 'inch' : 'metric'}
        choices={[
          { value: 'metric', text: '°C, kJ/mm' },
          { value: 'inch', text: '°F, kJ/in' },
        ]}
        onValue={(units) => entry.replace(inUnits(draft, units as DraftUnits))}
      />
      <div class="fields">
        {!fixed && named('Procedure', 'id', 'Its number, as in WPS-12.')}
        {named('Revision', 'revision', 'A name that no revision of it has yet.')}
        <SelectField
          label="Code"
          field="codeSet"
          value={draft.codeSet}
          choices={orNone(codeSets, 'Not stated: left to the joint')}
          hint="Its methods may govern and its table is a floor."
          onValue={(codeSet) => entry.change({ codeSet })}
        />
      </div>
    </fieldset>
  );
}
