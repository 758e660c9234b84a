/** Entering a joint, or correcting one: the form, and beside it the requirement as one types. */

import { useSignal } from '@preact/signals';
import type { Acceptance } from '../../../server/metallurgy/answer.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { entryOf, TextArea } from '../../parts/field.tsx';
import { RequirementView } from '../../parts/requirement.tsx';
import { Section } from '../../parts/section/section.tsx';
import { useTitle } from '../../parts/title.ts';
import { Explained } from '../requirement/explained.tsx';
import type { Problems } from './candidate.ts';
import { fieldWords } from './field-words.ts';
import { FileButtons } from './file-buttons.tsx';
import { HeatingFields } from './heating-fields.tsx';
import { CodeFields, IdentityFields } from './identity-fields.tsx';
import { PartFields } from './part-fields.tsx';
import { ProbeFields } from './probe-fields.tsx';
import { ProcedureFields } from './procedure-fields.tsx';
import { RepairFields } from './repair-fields.tsx';
import { StillWrong } from './still-wrong.tsx';
import { useEntering } from './use-entering.ts';
import { WeldingFields } from './welding-fields.tsx';

export function NewJointPage({ correcting, repairing }: { readonly correcting?: string; readonly repairing?: string }) {
  useTitle(correcting === undefined ? 'New joint' : `Correct ${correcting}`);
  const form = useEntering(correcting, repairing);
  const { entry, problems, tried, failure, reason, sending, candidate, metal, answer, preview } = form;
  return (
    <form
      class="entering"
      aria-labelledby="entering-title"
      onSubmit={(event) => {
        event.preventDefault();
        void form.enter();
      }}
    >
      <div class="joint-head">
        <h1 id="entering-title">{correcting === undefined ? 'New joint' : `Correct ${correcting}`}</h1>
        <p class="aside">What you type is kept on this device until it is entered.</p>
        <span class="grow" />
        <FileButtons
          joint={candidate.ok ? candidate.joint : undefined}
          open={form.open}
          refused={() => {
            tried.value = true;
            failure.value = `A joint file holds a whole joint; ${Object.keys(problems).length} fields are still to be mended.`;
          }}
          startOver={form.startOver}
        />
      </div>
      {form.before.value !== undefined && (
        <p class="notice row">
          The form was filled anew.
          <button type="button" class="plain" onClick={form.bringBack}>
            Bring back what stood here
          </button>
        </p>
      )}
      <div class="entering-grid">
        <div class="entering-form">
          <RepairFields entry={entry} />
          <IdentityFields entry={entry} correcting={correcting !== undefined} />
          <CodeFields entry={entry} />
          <PartFields entry={entry} />
          <WeldingFields entry={entry} />
          <HeatingFields entry={entry} />
          <ProcedureFields entry={entry} methods={answer?.methods ?? []} />
        </div>
        <aside class="entering-answer sheet" aria-labelledby="answer-title">
          <h2 id="answer-title">Required preheat</h2>
          {answer === undefined ? (
            <Missing problems={metal.ok ? {} : metal.problems} />
          ) : (
            <RequirementView requirement={answer} />
          )}
          <p class="caution">{cautions[1]}</p>
        </aside>
      </div>
      {preview !== undefined && (
        <div class="sheet">
          <h2>Where the probes sit</h2>
          <Section joint={preview} />
        </div>
      )}
      {preview !== undefined && <Further joint={preview} />}
      <ProbeFields entry={entry} />
      <section class="sheet finish">
        {correcting !== undefined && <TextArea label="Why it is corrected" {...entryOf(reason)} />}
        <StillWrong problems={tried.value ? problems : {}} failure={failure.value} />
        <button type="submit" class="act large" disabled={sending.value}>
          {sending.value ? 'Sending' : correcting === undefined ? 'Enter the joint' : 'Record the correction'}
        </button>
      </section>
    </form>
  );
}

/** What the page of the requirement shows, for the joint as it stands in the form. Worked out only while it is open. */
function Further({ joint }: { readonly joint: Joint }) {
  const open = useSignal(false);
  return (
    <details
      class="sheet"
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>How hot, and why: every method, what if, cooling, limits upward, after welding</summary>
      {open.value && <Explained joint={joint} acceptances={noAcceptances} />}
    </details>
  );
}

/** What is only being entered, nobody has accepted yet. */
const noAcceptances: readonly Acceptance[] = [];

function Missing({ problems }: { readonly problems: Problems }) {
  return (
    <>
      <p class="minimum">
        <span class="minimum-figure">Not known</span>
        <span class="minimum-by">Still needed</span>
      </p>
      <ul class="plain-list">
        {Object.entries(problems)
          .slice(0, 8)
          .map(([field, problem]) => (
            <li key={field}>
              <strong>{fieldWords(field)}.</strong> {problem}
            </li>
          ))}
      </ul>
    </>
  );
}
