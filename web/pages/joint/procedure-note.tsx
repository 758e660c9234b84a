/** What the station knows of the joint's procedure that the joint itself cannot: another revision holds, or this one was withdrawn. */
import type { Binding } from '../../../server/weld/procedure-act.ts';
import { revisionText } from '../../../server/wording/procedure.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { dayText } from '../../format/time.ts';
import { Glyph } from '../../parts/glyph.tsx';
import { procedureAddress } from '../../state/route.ts';

export function ProcedureNote({ live, open }: { readonly live: LiveJoint; readonly open: () => void }) {
  const { binding, joint, assessment } = live;
  if (binding === undefined || joint.procedure === undefined) return null;
  const { holds, bound } = binding;
  if (holds === undefined && bound?.withdrawn === undefined) return null;
  const closed = assessment.phase === 'closed';
  return (
    <p class={bound === undefined ? 'banner' : 'banner warn'} role="status">
      <Glyph name="note" />
      <span>
        <strong>{noteText(binding, joint.procedure.revision)}</strong>{' '}
        <a href={procedureAddress(joint.procedure.id)}>Procedure {joint.procedure.id}</a>
      </span>
      {holds !== undefined && !closed && (
        <button type="button" data-opens="change over" onClick={open}>
          See what changes
        </button>
      )}
    </p>
  );
}

function noteText({ bound, holds }: Binding, revision: string): string {
  const withdrawn =
    bound?.withdrawn === undefined
      ? ''
      : `Revision ${revision}, which this joint is bound to, was withdrawn ${dayText(bound.withdrawn.at)} by ${bound.withdrawn.who}: ${bound.withdrawn.reason}. `;
  if (holds === undefined) return `${withdrawn}No other revision holds: ask the coordinator.`;
  const since = `${revisionText(holds.revision)} holds since ${dayText(holds.at)}`;
  return bound === undefined
    ? `${since}; the values of this joint were entered by hand.`
    : `${withdrawn}${since}; this joint goes by revision ${revision} until it is changed over.`;
}
