/** Signing on at this screen: name and PIN or badge where the screen is trusted, name and password anywhere. Made for gloves. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { listText } from '../../../server/wording/list.ts';
import { signOff, signOn, signOnBy } from '../../state/sign-on.ts';
import { Badge } from './badge.tsx';
import { OwnSecrets } from './own.tsx';
import { ByPassword } from './password.tsx';
import { ByPin } from './pin.tsx';

export type Try = (body: object) => Promise<boolean>;

export function SignOnPanel({ done }: { readonly done: () => void }) {
  const panel = useRef<HTMLElement>(null);
  useEffect(() => panel.current?.focus(), []);
  const view = signOn.value;
  if (view === undefined) return null;
  return (
    <section class="sheet sign-on" aria-label="Sign on" tabIndex={-1} ref={panel}>
      {view.who === undefined ? <Ways done={done} /> : <SignedOn done={done} />}
      <div class="row end">
        <button type="button" class="plain" onClick={done}>
          Back
        </button>
      </div>
    </section>
  );
}

function Ways({ done }: { readonly done: () => void }) {
  const failure = useSignal<string | undefined>(undefined);
  const sending = useSignal(false);
  const view = signOn.value;
  const attempt: Try = async (body) => {
    sending.value = true;
    failure.value = undefined;
    failure.value = await signOnBy(body);
    sending.value = false;
    if (failure.value === undefined) done();
    return failure.value === undefined;
  };
  const trusted = view?.screen !== undefined;
  return (
    <>
      <h2>Sign on</h2>
      {failure.value !== undefined && (
        <p class="notice loud" role="alert">
          Not signed on: {failure.value}.
        </p>
      )}
      {trusted && (
        <div class="ways">
          <ByPin people={view.byPin} attempt={attempt} sending={sending.value} />
          <Badge attempt={attempt} />
        </div>
      )}
      <Folded folded={trusted} title="With name and password">
        <ByPassword attempt={attempt} sending={sending.value} />
      </Folded>
      {!trusted && (
        <p class="hint">
          A PIN or a badge is enough on a screen that an administrator has trusted, on the page People. This one is not.
        </p>
      )}
    </>
  );
}

function Folded({ folded, title, children }: { folded: boolean; title: string; children: ComponentChildren }) {
  if (!folded) return <>{children}</>;
  return (
    <details>
      <summary>{title}</summary>
      <div class="later">{children}</div>
    </details>
  );
}

function SignedOn({ done }: { readonly done: () => void }) {
  const who = signOn.value?.who;
  if (who === undefined) return null;
  return (
    <>
      <h2>{who.name}</h2>
      <p>
        Signed on with {who.proof === 'badge' ? 'a' : 'the'} {who.proof}, as {listText(who.roles)}. What you enter
        stands under this name.
      </p>
      <div class="row">
        <button
          type="button"
          class="act big"
          onClick={async () => {
            await signOff();
            done();
          }}
        >
          Sign off
        </button>
      </div>
      <OwnSecrets />
    </>
  );
}
