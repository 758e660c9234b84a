/** What the arc signal proposes, confirmed by one press: the time is that of the signal, and nothing is entered unasked. */
import { useSignal } from '@preact/signals';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { actKey } from '../../feed/http.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { clockMinuteText } from '../../format/time.ts';
import { sendAct } from '../../state/acts.ts';
import { person } from '../../state/person.ts';
import { freshPassStart, passStartOf } from './pass-draft.ts';

interface Props {
  readonly live: LiveJoint;
  readonly done: (act: Act) => void;
}

export function ArcProposal({ live, done }: Props) {
  const sending = useSignal(false);
  const failure = useSignal<string | undefined>(undefined);
  const key = useSignal(actKey());
  const proposal = live.assessment.arc?.proposal;
  if (proposal === undefined) return null;
  const draft = freshPassStart(live, person.value?.name ?? '');
  const at = clockMinuteText(proposal.at);
  const confirm = async (): Promise<void> => {
    const who = person.peek();
    if (who === undefined) {
      failure.value = 'Say who you are first, at the top of the page: every entry needs a name.';
      return;
    }
    const happened = { happenedAt: proposal.at };
    const read = { text: (field: string) => draft[field] ?? '', problem: () => {} };
    const act: Act =
      proposal.kind === 'pass end'
        ? { kind: 'pass end', pass: proposal.pass, ...happened }
        : passStartOf(draft, unitsOf(live.joint), read, happened);
    sending.value = true;
    const sent = await sendAct(live.joint.id, who, act, key.peek());
    sending.value = false;
    if (sent.kind === 'recorded') {
      key.value = actKey();
      failure.value = undefined;
      done(act);
    } else failure.value = sent.kind === 'wrong' ? Object.values(sent.problems).join('; ') : sent.why;
  };
  const seen = proposal.kind === 'pass start' && !proposal.isBurning ? `Arc seen at ${at}` : `Arc seen since ${at}`;
  return (
    <>
      <button type="button" class="big asks wide" disabled={sending.value} onClick={() => void confirm()}>
        {proposal.kind === 'pass end'
          ? `Arc out since ${at}: end pass ${proposal.pass}`
          : `${seen}: enter pass ${draft.pass}`}
        <span class="under">
          {proposal.kind === 'pass end'
            ? 'numbers can be entered after'
            : `${draft.passKind}, ${draft.welder || 'say who you are first'}`}
        </span>
      </button>
      {failure.value !== undefined && (
        <p class="notice loud" role="alert">
          {failure.value}
        </p>
      )}
    </>
  );
}
