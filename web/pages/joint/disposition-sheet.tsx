/** Deviations one after the other, each with the decision of a named person: accept, repair or reject, with the reason. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { Finding } from '../../../server/judgement/assessment.ts';
import { deviationCounts, deviationsOf } from '../../../server/judgement/people/deviations.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { deviationCountText, dispositionText } from '../../../server/wording/deviation.ts';
import { rolesText } from '../../../server/wording/duty.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { inside } from '../../../server/wording/list.ts';
import { TextArea } from '../../parts/field.tsx';
import { person } from '../../state/person.ts';
import { decisions, dispositionOf } from './decision.ts';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

/** `stay`: one was decided, and the next is open. */
export function DispositionSheet({ live, done, stay, back }: SheetProps & { readonly stay: (act: Act) => void }) {
  const deviations = deviationsOf(live.assessment.findings);
  // Open ones first; what was decided can be decided anew.
  const list = [...deviations.open, ...deviations.repair, ...deviations.rejected, ...deviations.accepted];
  const chosen = useSignal(0);
  const finding = list[Math.min(chosen.value, list.length - 1)];
  if (finding === undefined) {
    return (
      <section class="sheet act-sheet">
        <h2>Deviations</h2>
        <p>No deviation needs an answer.</p>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </section>
    );
  }
  const next = (act: Act): void => {
    chosen.value = 0;
    (deviations.open.some(({ key }) => key !== finding.key) ? stay : done)(act);
  };
  return (
    <DecisionForm key={finding.key} live={live} done={next} back={back} finding={finding}>
      <p class="aside">
        {deviationCountText(deviationCounts(live.assessment.findings))}.{' '}
        {list.length > 1 && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              chosen.value = (chosen.value + 1) % list.length;
            }}
          >
            Show the next of {list.length}
          </button>
        )}
      </p>
    </DecisionForm>
  );
}

interface DecisionProps extends SheetProps {
  readonly finding: Finding;
  readonly children: ComponentChildren;
}

function DecisionForm({ live, done, back, finding, children }: DecisionProps) {
  const sheet = useSheet('disposition', live, done, { of: finding.key, draft: { reason: '' } });
  const { what, why } = findingText(finding, unitsOf(live.joint));
  const reason = sheet.draft.reason ?? '';
  const decision = decisions.find((each) => each.decision === sheet.draft.decision)?.decision;
  return (
    <SheetFrame
      title="Decide on a deviation"
      sheet={sheet}
      back={back}
      action="Decide in my name"
      submit={() => {
        if (decision === undefined) sheet.fail('Choose first: accept, repair or reject.');
        else if (reason.trim() === '') sheet.fail('Give the reason: it stands in the record beside your name.');
        else void sheet.send(dispositionOf(finding, decision, reason.trim()));
      }}
    >
      {children}
      <p class="notice">
        <strong>{what}.</strong> {why}
        {finding.disposition !== undefined && ` ${dispositionText(finding.disposition)}: ${finding.disposition.reason}`}
      </p>
      <fieldset>
        <legend>What is decided</legend>
        <div class="choices">
          {decisions.map((each) => (
            <label key={each.decision} class={decision === each.decision ? 'chosen' : ''}>
              <input
                type="radio"
                name="decision"
                checked={decision === each.decision}
                onChange={() => sheet.set('decision', each.decision)}
              />
              {each.text}
            </label>
          ))}
        </div>
      </fieldset>
      <TextArea label="Reason" value={reason} onValue={(value) => sheet.set('reason', value)} />
      <p class="hint">
        A decision changes no measurement. It counts from {inside(rolesText('disposition'))}
        {person.value?.role === undefined ? '; say your part in this at the top of the page.' : '.'}
      </p>
    </SheetFrame>
  );
}
