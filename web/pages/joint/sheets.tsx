/** The forms of what a person does at the joint. Each opens in place of the buttons, so that the readings stay in sight. */

import type { Act } from '../../../server/weld/entry.ts';
import { passKinds } from '../../../server/weld/pass-acts.ts';
import { sides } from '../../../server/weld/probe.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { begun } from '../../../server/wording/list.ts';
import { verdictText } from '../../../server/wording/verdict.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, TextArea, TextField } from '../../parts/field.tsx';
import { Ago, SheetFrame } from './sheet-frame.tsx';
import { useSheet } from './use-sheet.ts';

export interface SheetProps {
  readonly live: LiveJoint;
  readonly done: (act: Act) => void;
  readonly back: () => void;
}

export function HeatSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('heat', live, done);
  const off = sheet.draft.state === 'off';
  return (
    <SheetFrame
      title="Heat on or off"
      sheet={sheet}
      back={back}
      action={off ? 'Record heat off' : 'Record heat on'}
      later={{ title: 'It changed earlier', content: <Ago sheet={sheet} what="It changed" /> }}
    >
      <ChoiceField
        label="The heat is now"
        value={sheet.draft.state ?? 'on'}
        choices={[
          { value: 'on', text: 'On' },
          { value: 'off', text: 'Off' },
        ]}
        onValue={(value) => sheet.set('state', value)}
      />
      {!off && live.assessment.soak.state === 'running' && (
        <p class="notice">Heat on ends the wait that is running; it begins again when the heat is off.</p>
      )}
    </SheetFrame>
  );
}

export function PassStartSheet({ live, done, back, outside }: SheetProps & { readonly outside: string | undefined }) {
  const sheet = useSheet('pass start', live, done);
  const { draft } = sheet;
  return (
    <SheetFrame
      title="Start a pass"
      sheet={sheet}
      back={back}
      action={
        outside === undefined
          ? `Start pass ${draft.pass ?? ''}`
          : `Start pass ${draft.pass ?? ''} outside the conditions`
      }
      loud={outside !== undefined}
      later={{
        title: 'Side, place, or started earlier',
        content: (
          <>
            <ChoiceField
              label="Side"
              value={draft.side ?? ''}
              choices={[
                ...sides.map((side) => ({ value: side as string, text: side })),
                { value: '', text: 'Not stated' },
              ]}
              onValue={(value) => sheet.set('side', value)}
            />
            <TextField
              label="Where"
              optional
              value={draft.where ?? ''}
              onValue={(value) => sheet.set('where', value)}
            />
            <Ago sheet={sheet} what="It started" />
          </>
        ),
      }}
    >
      {outside !== undefined && (
        <p class="notice loud">
          <strong>This pass will be recorded as begun outside the conditions:</strong> {outside}. Nothing is blocked;
          the record says so.
        </p>
      )}
      <div class="fields">
        <TextField
          label="Pass"
          value={draft.pass ?? ''}
          problem={sheet.problems.pass}
          onValue={(value) => sheet.set('pass', value)}
        />
        <TextField
          label="Welder"
          value={draft.welder ?? ''}
          problem={sheet.problems.welder}
          onValue={(value) => sheet.set('welder', value)}
        />
      </div>
      <ChoiceField
        label="Kind"
        value={draft.passKind ?? 'fill'}
        choices={passKinds.map((kind) => ({ value: kind, text: begun(kind) }))}
        onValue={(value) => sheet.set('passKind', value)}
      />
    </SheetFrame>
  );
}

export function PassEndSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('pass end', live, done);
  const running = live.assessment.passes.filter((pass) => pass.endedAt === undefined);
  return (
    <SheetFrame
      title="End a pass"
      sheet={sheet}
      back={back}
      action={`End pass ${sheet.draft.pass ?? ''}`}
      later={{ title: 'It ended earlier', content: <Ago sheet={sheet} what="It ended" /> }}
    >
      <ChoiceField
        label="Pass that ended"
        value={sheet.draft.pass ?? ''}
        problem={sheet.problems.pass}
        choices={running.map((pass) => ({ value: pass.pass, text: `${pass.pass}, ${pass.passKind}, ${pass.welder}` }))}
        onValue={(value) => sheet.set('pass', value)}
      />
    </SheetFrame>
  );
}

export function NoteSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('note', live, done);
  return (
    <SheetFrame title="Note" sheet={sheet} back={back} action="Record the note">
      <TextArea
        label="What should be known later"
        value={sheet.draft.text ?? ''}
        problem={sheet.problems.text}
        onValue={(value) => sheet.set('text', value)}
      />
    </SheetFrame>
  );
}

export function DeclareSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('declare source', live, done);
  return (
    <SheetFrame title="Put your name to the source" sheet={sheet} back={back} action="Declare the source">
      <p>
        The station cannot tell by itself what is connected. Say what it is and how you know; the record keeps it with
        your name.
      </p>
      <TextArea
        label="What is connected, and how you know"
        value={sheet.draft.text ?? ''}
        problem={sheet.problems.text}
        onValue={(value) => sheet.set('text', value)}
      />
    </SheetFrame>
  );
}

export function CloseSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('close', live, done);
  const { assessment } = live;
  const open = assessment.findings.filter((finding) => finding.severity !== 'remark');
  const running = assessment.passes.filter((pass) => pass.endedAt === undefined);
  return (
    <SheetFrame title="Close the joint" sheet={sheet} back={back} action="Close the joint">
      <p>
        <strong>{verdictText(assessment)}</strong>
      </p>
      {running.length > 0 && (
        <p class="notice loud">Closing also ends {running.map((pass) => `pass ${pass.pass}`).join(', ')}.</p>
      )}
      {open.length > 0 && (
        <ul class="plain-list">
          {open.map((finding) => (
            <li key={finding.key}>{findingText(finding, assessment.requirement.units).what}</li>
          ))}
        </ul>
      )}
      <TextArea
        label="Statement, if you want to make one"
        value={sheet.draft.text ?? ''}
        problem={sheet.problems.text}
        onValue={(value) => sheet.set('text', value)}
      />
      <p class="hint">After this no reading and no pass is added. The record stays readable and printable.</p>
    </SheetFrame>
  );
}
