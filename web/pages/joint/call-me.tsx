/** "Call me": asked for by one touch, taken back by another, kept on this device. */

import type { Assessment } from '../../../server/judgement/assessment.ts';
import { isBetweenArcs } from '../../../server/judgement/phases/phase-kind.ts';
import { type CallKind, callKinds, callText, timeUntil } from '../../../server/wording/call.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { toggleCall, waits } from '../../state/calls.ts';
import { soundState } from '../../state/sound.ts';

export function CallMe({ live }: { readonly live: LiveJoint }) {
  const { joint, assessment, outlook } = live;
  const offered = callKinds.filter((kind) => waits(joint.id, kind) || isOffered(kind, assessment));
  if (offered.length === 0) return null;
  const asked = offered.filter((kind) => waits(joint.id, kind));
  const unknown = asked.filter((kind) => timeUntil(kind, assessment, outlook) === undefined);
  return (
    <section class="sheet call-me" aria-labelledby="call-heading">
      <h2 id="call-heading">Call me</h2>
      <div class="row wrap">
        {offered.map((kind) => (
          <button
            type="button"
            key={kind}
            aria-pressed={waits(joint.id, kind)}
            onClick={() => toggleCall({ joint: joint.id, title: joint.title, kind })}
          >
            {callText[kind]}
          </button>
        ))}
      </div>
      {asked.length > 0 && (
        <p class="hint">
          {soundState.value === 'on'
            ? 'It will be shown and sounded on this device, once.'
            : 'It will be shown on this device, once. Sound is off here: switch it on at the top of the page.'}
          {unknown.length > 0 && ' When that will be cannot be told yet.'}
        </p>
      )}
    </section>
  );
}

const isOffered = (kind: CallKind, { phase, ready, limits, interpass, after }: Assessment): boolean => {
  if (phase === 'closed' || after !== undefined) return false;
  switch (kind) {
    case 'ready':
      return !ready && phase !== 'pass running';
    case 'window':
      return limits.interpassMaximum !== undefined && interpass.state === 'too hot';
    case 'break':
      return limits.maintenanceMinimum !== undefined && isBetweenArcs(phase);
  }
};
