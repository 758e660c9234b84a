/** The joint changed over to the revision that holds: what changes, value by value, and why. An entry, never silently. */
import { unitsOf } from '../../../server/measure/units.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import {
  besideFields,
  carriedRevision,
  type ProcedureRevision,
  reboundTo,
} from '../../../server/weld/procedure-revision.ts';
import { rolesText } from '../../../server/wording/duty.ts';
import { revisionText } from '../../../server/wording/procedure.ts';
import { TextArea } from '../../parts/field.tsx';
import { Changes } from '../procedures/changes.tsx';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function ChangeOverSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('change over', live, done);
  const holds = live.binding?.holds;
  if (holds === undefined)
    return (
      <section class="sheet act-sheet">
        <h2>Procedure</h2>
        <p>No other revision of this procedure holds.</p>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </section>
    );
  const { joint } = live;
  const reason = sheet.draft.reason ?? '';
  return (
    <SheetFrame
      title={`Change over to ${revisionText(holds.revision)}`}
      sheet={sheet}
      back={back}
      action="Change over in my name"
      submit={() => {
        if (reason.trim() === '') sheet.fail('Say why the joint is changed over: the reason stands in the record.');
        else
          void sheet.send({
            kind: 'revise',
            joint: reboundTo(joint, holds.revision, holds.sha256),
            reason: reason.trim(),
          });
      }}
    >
      {holds.reason !== undefined && (
        <p class="aside">
          Why there is this revision ({holds.who}): {holds.reason}
        </p>
      )}
      <Changes before={comparable(joint, holds.revision)} after={holds.revision} units={unitsOf(joint)} />
      <p class="caution">
        From this entry on the joint is judged by the new values. What was welded before stays as it was judged; whether
        it stands under the new revision, a named person decides.
      </p>
      <TextArea label="Why" value={reason} onValue={(value) => sheet.set('reason', value)} />
      <p class="hint">For {rolesText('revise')}.</p>
    </SheetFrame>
  );
}

/** What the joint goes by now, as a revision; of a joint whose values were entered by hand, what the new revision takes the place of. */
function comparable(joint: Joint, next: ProcedureRevision): ProcedureRevision {
  const carried = carriedRevision(joint);
  if (carried !== undefined) return carried;
  const beside = besideFields.filter((field) => next[field] !== undefined && joint[field] !== undefined);
  return {
    format: 'preheat procedure 1',
    procedure: joint.procedure!,
    ...Object.fromEntries(beside.map((field) => [field, joint[field]])),
  };
}
