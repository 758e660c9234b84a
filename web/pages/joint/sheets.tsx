/** The forms of what a person does at the joint. Each opens in place of the buttons, so that the readings stay in sight. */

import { milliCelsius } from '../../../server/measure/quantity.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { stillOpenText } from '../../../server/wording/after-open.ts';
import { findingText } from '../../../server/wording/finding.ts';
import { limitText } from '../../../server/wording/temperature.ts';
import { verdictText } from '../../../server/wording/verdict.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, TextArea } from '../../parts/field.tsx';
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
        choices={[
          { value: 'on', text: 'On' },
          { value: 'off', text: 'Off' },
        ]}
        {...sheet.entry('state', 'on')}
      />
      {!off && live.joint.heating.setPointCelsius !== undefined && (
        <p class="hint">
          Set the controller to {limitText(milliCelsius(live.joint.heating.setPointCelsius), unitsOf(live.joint))}, as
          the joint says.
        </p>
      )}
      {!off && live.assessment.soak.state === 'running' && (
        <p class="notice">Heat on ends the wait that is running; it begins again when the heat is off.</p>
      )}
    </SheetFrame>
  );
}

export function NoteSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('note', live, done);
  return (
    <SheetFrame title="Note" sheet={sheet} back={back} action="Record the note">
      <TextArea label="What should be known later" {...sheet.entry('text')} />
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
      <TextArea label="What is connected, and how you know" {...sheet.entry('text')} />
    </SheetFrame>
  );
}

export function CloseSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('close', live, done);
  const { assessment } = live;
  const open = assessment.findings.filter((finding) => finding.severity !== 'remark');
  const running = assessment.passes.filter((pass) => pass.endedAt === undefined);
  const undone = stillOpenText(assessment);
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
      {undone.length > 0 && (
        <div class="notice loud">
          <p>Still to be done at this joint; closing ends it:</p>
          <ul class="plain-list">
            {undone.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      )}
      <TextArea label="Statement, if you want to make one" {...sheet.entry('text')} />
      <p class="hint">After this no reading and no pass is added. The record stays readable and printable.</p>
    </SheetFrame>
  );
}
