/** A name out of a list, then a PIN on large keys. The keys of a keyboard do the same. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { SignOnView } from '../../../server/weld/sign-on.ts';
import { keep, kept } from '../../state/kept.ts';
import type { Try } from './panel.tsx';

const lastKey = 'preheat.lastSignedOn';
const isText = (value: unknown): value is string => typeof value === 'string';

interface Props {
  readonly people: SignOnView['byPin'];
  readonly attempt: Try;
  readonly sending: boolean;
  readonly asks?: string;
}

export function ByPin({ people, attempt, sending, asks = 'Who are you?' }: Props) {
  const chosen = useSignal<string | undefined>(undefined);
  if (people.length === 0) return <p>Nobody here has a PIN yet. An administrator gives one on the page People.</p>;
  const person = people.find(({ id }) => id === chosen.value);
  if (person === undefined) {
    // Whoever was here last is the likeliest to be here again.
    const last = kept(lastKey, isText);
    const list = [...people].sort((a, b) => Number(b.id === last) - Number(a.id === last));
    return (
      <fieldset class="names">
        <legend>{asks}</legend>
        {list.map(({ id, name }) => (
          <button
            key={id}
            type="button"
            class="big"
            onClick={() => {
              chosen.value = id;
            }}
          >
            {name}
          </button>
        ))}
      </fieldset>
    );
  }
  return (
    <PinPad
      name={person.name}
      sending={sending}
      label={`Sign on as ${person.name}`}
      enter={async (pin) => {
        const right = await attempt({ person: person.id, pin });
        if (right) keep(lastKey, person.id);
        return right;
      }}
      back={() => {
        chosen.value = undefined;
      }}
    />
  );
}

function PinPad({
  name,
  label,
  sending,
  enter,
  back,
}: {
  readonly name: string;
  readonly label: string;
  readonly sending: boolean;
  readonly enter: (pin: string) => Promise<boolean>;
  readonly back: () => void;
}) {
  const pin = useSignal('');
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), []);
  const press = (digit: string): void => {
    pin.value += digit;
  };
  return (
    <form
      class="pin"
      onSubmit={async (event) => {
        event.preventDefault();
        const typed = pin.value;
        pin.value = '';
        if (typed !== '') await enter(typed);
      }}
    >
      <label>
        PIN of {name}
        <input
          ref={field}
          type="password"
          inputMode="none"
          autoComplete="off"
          value={pin.value}
          onInput={(event) => {
            pin.value = event.currentTarget.value.replaceAll(/\D/g, '');
          }}
        />
      </label>
      <div class="pad">
        {['1', '2', '3', '4', '5', '6', '7', '8', '9'].map((digit) => (
          <button key={digit} type="button" class="big" onClick={() => press(digit)}>
            {digit}
          </button>
        ))}
        <button
          type="button"
          class="big plain"
          onClick={() => {
            if (pin.value === '') back();
            else pin.value = pin.value.slice(0, -1);
          }}
        >
          {pin.value === '' ? 'Others' : 'Undo'}
        </button>
        <button type="button" class="big" onClick={() => press('0')}>
          0
        </button>
        <button type="submit" class="big act" disabled={sending || pin.value === ''}>
          {sending ? 'Asking' : 'Enter'}
        </button>
      </div>
      <p class="unseen" role="status">
        {label}: {pin.value.length} digits
      </p>
    </form>
  );
}
