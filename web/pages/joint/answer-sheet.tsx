/** Warnings that a named person has to answer before the joint can be ready. */
import { useSignal } from '@preact/signals';
import type { RequirementWarning } from '../../../server/metallurgy/answer.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { TextArea } from '../../parts/field.tsx';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function AnswerSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('accept', live, done);
  const asked = live.assessment.requirement.warnings.filter((warning) => warning.wantsAnswer);
  const chosen = useSignal(0);
  const warning = asked[Math.min(chosen.value, asked.length - 1)];
  if (warning === undefined) {
    return (
      <section class="sheet act-sheet">
        <h2>Named answers</h2>
        <p>Nothing waits for an answer.</p>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </section>
    );
  }
  const reason = sheet.draft.reason ?? '';
  return (
    <SheetFrame
      title="Answer by name"
      sheet={sheet}
      back={back}
      action="Accept under my name"
      submit={() => {
        if (reason.trim() === '') sheet.fail('Give the reason: it stands in the record beside your name.');
        else void sheet.send(answerTo(warning, reason.trim()));
      }}
    >
      {asked.length > 1 && (
        <p class="aside">
          {chosen.value + 1} of {asked.length}.{' '}
          <button
            type="button"
            class="plain"
            onClick={() => {
              chosen.value = (chosen.value + 1) % asked.length;
            }}
          >
            Show the next
          </button>
        </p>
      )}
      <p class="notice">{warning.message}</p>
      <TextArea label="Why it is acceptable" value={reason} onValue={(value) => sheet.set('reason', value)} />
      <p class="hint">If you do not accept it, go back: correct the joint or the procedure instead.</p>
    </SheetFrame>
  );
}

export const answerTo = (warning: RequirementWarning, reason: string): Act => ({
  kind: 'accept',
  subject: warning.kind === 'procedure below calculation' ? 'procedure below calculation' : 'extended range',
  ...(warning.method === undefined ? {} : { method: warning.method }),
  reason,
});
