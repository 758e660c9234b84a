/** Both sign: who acts here hands over, and who takes over gives PIN, badge or password beside; or two typed names, which is said. */
import { useSignal } from '@preact/signals';
import type { JointSummary } from '../../../server/screen/contract.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { actKey, postJson } from '../../feed/http.ts';
import { entryOf, TextArea, TextField } from '../../parts/field.tsx';
import { Badge } from '../../parts/sign-on/badge.tsx';
import { ByPassword } from '../../parts/sign-on/password.tsx';
import { ByPin } from '../../parts/sign-on/pin.tsx';
import { sendAct } from '../../state/acts.ts';
import { forWhom, nobodyYet, person, signsOn } from '../../state/person.ts';
import { askWho, signOn, whyNot } from '../../state/sign-on.ts';

export function Signing({ joints }: { readonly joints: readonly JointSummary[] }) {
  const note = useSignal('');
  const to = useSignal('');
  const failure = useSignal<string | undefined>(undefined);
  const said = useSignal('');
  const sending = useSignal(false);
  /** Sent again after a lost answer, each is recorded once. */
  const keys = useSignal<ReadonlyMap<string, string>>(new Map());

  const record = async (name: string, counterSign?: string): Promise<boolean> => {
    const who = person.peek();
    if (who === undefined) {
      failure.value = nobodyYet();
      return false;
    }
    const act: Act = { kind: 'hand-over', to: name, ...(note.value.trim() === '' ? {} : { note: note.value.trim() }) };
    sending.value = true;
    failure.value = undefined;
    for (const { id } of joints) {
      const what = `${id} ${JSON.stringify(act)}`;
      const key = keys.peek().get(what) ?? actKey();
      keys.value = new Map([...keys.peek(), [what, key]]);
      const sent = await sendAct(id, who, act, key, counterSign);
      if (sent.kind === 'recorded') continue;
      failure.value = sent.kind === 'wrong' ? Object.values(sent.problems).join('; ') : sent.why;
      break;
    }
    sending.value = false;
    if (failure.value !== undefined) return false;
    keys.value = new Map();
    said.value = `Handed over by ${who.name} to ${name}: ${joints.length === 1 ? '1 joint' : `${joints.length} joints`}.`;
    note.value = '';
    to.value = '';
    return true;
  };

  /** The second signature first, then the entries that carry it. */
  const attempt = async (body: object): Promise<boolean> => {
    sending.value = true;
    failure.value = undefined;
    const answer = await postJson<{ counterSign: string; name: string }>('/api/counter-sign', body);
    sending.value = false;
    if (answer.kind === 'ok') return record(answer.value.name, answer.value.counterSign);
    failure.value = `Not signed: ${whyNot(answer)}.`;
    return false;
  };

  const against = forWhom('hand-over');
  return (
    <section class="sheet sign-on no-print" aria-label="Both sign">
      <h2>Both sign</h2>
      {said.value !== '' && (
        <p class="said" role="status">
          {said.value}
        </p>
      )}
      {failure.value !== undefined && (
        <p class="notice loud" role="alert">
          {failure.value}
        </p>
      )}
      {signsOn.value && person.value === undefined ? (
        <div class="row">
          <button type="button" class="act big" onClick={() => askWho()}>
            Sign on to hand over
          </button>
        </div>
      ) : against !== undefined ? (
        <p>Handing over is {against}.</p>
      ) : (
        <>
          <p>
            <strong>{person.value?.name ?? 'Somebody without a name yet'}</strong> hands over.{' '}
            {signsOn.value
              ? 'Who takes over signs here beside.'
              : 'Nobody signs on at this station: two typed names, which the record says.'}
          </p>
          <TextArea label="What should be known beyond this page, if anything" {...entryOf(note)} />
          {signsOn.value ? (
            <Second attempt={attempt} sending={sending.value} />
          ) : (
            <form
              class="by-password"
              aria-label="Hand over"
              onSubmit={(event) => {
                event.preventDefault();
                void record(to.value.trim());
              }}
            >
              <TextField label="Who takes over" {...entryOf(to)} />
              <button type="submit" class="act" disabled={sending.value || to.value.trim() === ''}>
                Hand over
              </button>
            </form>
          )}
        </>
      )}
    </section>
  );
}

function Second({ attempt, sending }: { attempt: (body: object) => Promise<boolean>; readonly sending: boolean }) {
  const view = signOn.value;
  if (view?.screen === undefined) return <ByPassword attempt={attempt} sending={sending} label="Take over" />;
  const others = view.byPin.filter(({ id }) => id !== view.who?.id);
  return (
    <div class="ways">
      <ByPin people={others} attempt={attempt} sending={sending} asks="Who takes over?" />
      <Badge attempt={attempt} />
    </div>
  );
}
