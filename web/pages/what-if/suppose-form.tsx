/** One change at a time, in a few large choices; only what the joint has can be chosen. */
import { useSignal } from '@preact/signals';
import type { PassStatus } from '../../../server/judgement/pass-status.ts';
import { readNumber } from '../../../server/measure/number-text.ts';
import type { Supposition } from '../../../server/supposing/supposition.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';

type Kind = Supposition['kind'];

interface Props {
  readonly joint: Joint;
  readonly passes: readonly PassStatus[];
  readonly ask: (supposed: Supposition) => void;
}

export function SupposeForm({ joint, passes, ask }: Props) {
  const kind = useSignal<Kind>(passes.length > 0 ? 'more time' : 'far face insulated');
  const probe = useSignal(joint.probes[0]?.id ?? '');
  const pass = useSignal(passes.at(-1)?.pass ?? '');
  const minutes = useSignal('2');
  const limits = useSignal({ minimum: '', interpass: '', hold: '', core: '' });
  const wrong = useSignal<string | undefined>(undefined);

  const press = (): void => {
    const { minimum, interpass, hold, core } = limits.value;
    const numbers = [
      ...(kind.value === 'more time' ? [minutes.value] : []),
      ...(kind.value === 'other limits' ? [minimum, interpass, hold, core] : []),
    ];
    if (numbers.some((text) => text.trim() !== '' && number(text) === undefined)) {
      wrong.value = 'A number is not understood: digits, with one point or comma.';
      return;
    }
    wrong.value = undefined;
    const supposed = supposition();
    if (supposed === undefined) wrong.value = 'A number is still missing.';
    else ask(supposed);
  };

  const supposition = (): Supposition | undefined => {
    switch (kind.value) {
      case 'far face insulated':
        return { kind: 'far face insulated' };
      case 'probe left out':
        return { kind: 'probe left out', probe: probe.value };
      case 'more time': {
        const later = number(minutes.value);
        return later === undefined ? undefined : { kind: 'more time', pass: pass.value, minutes: later };
      }
      case 'other limits': {
        const { minimum, interpass, hold, core } = limits.value;
        const stated = {
          preheatMinimumCelsius: number(minimum),
          interpassMaximumCelsius: number(interpass),
          soakHoldMinutes: number(hold),
          throughThicknessHoldMinutes: number(core),
        };
        return Object.values(stated).every((value) => value === undefined)
          ? undefined
          : { kind: 'other limits', ...stated };
      }
    }
  };

  const setLimit = (field: keyof typeof limits.value) => (value: string) => {
    limits.value = { ...limits.value, [field]: value };
  };

  return (
    <form
      class="sheet stack no-print"
      onSubmit={(event) => {
        event.preventDefault();
        press();
      }}
    >
      <ChoiceField
        label="What is supposed"
        value={kind.value}
        choices={choices.filter(({ value }) => value !== 'more time' || passes.length > 0)}
        onValue={(value) => {
          kind.value = value;
        }}
      />
      <div class="fields">
        {kind.value === 'more time' && (
          <>
            <SelectField
              label="Before pass"
              value={pass.value}
              choices={passes.map((each) => ({ value: each.pass, text: each.pass }))}
              onValue={(value) => {
                pass.value = value;
              }}
            />
            <TextField
              label="More time"
              unit="min"
              kind="number"
              value={minutes.value}
              hint="Up to 60"
              onValue={(value) => {
                minutes.value = value;
              }}
            />
          </>
        )}
        {kind.value === 'probe left out' && (
          <SelectField
            label="Probe"
            value={probe.value}
            choices={joint.probes.map(({ id }) => ({ value: id, text: id }))}
            onValue={(value) => {
              probe.value = value;
            }}
          />
        )}
        {kind.value === 'other limits' && (
          <>
            <TextField
              label="Minimum preheat"
              unit="°C"
              kind="number"
              value={limits.value.minimum}
              onValue={setLimit('minimum')}
            />
            <TextField
              label="Maximum interpass"
              unit="°C"
              kind="number"
              value={limits.value.interpass}
              onValue={setLimit('interpass')}
            />
            <TextField
              label="Hold with heaters on"
              unit="min"
              kind="number"
              value={limits.value.hold}
              onValue={setLimit('hold')}
            />
            <TextField
              label="At the minimum through the thickness"
              unit="min"
              kind="number"
              value={limits.value.core}
              onValue={setLimit('core')}
            />
          </>
        )}
      </div>
      {wrong.value !== undefined && (
        <p class="problem" role="alert">
          {wrong.value}
        </p>
      )}
      <button type="submit" class="act">
        Judge it so
      </button>
    </form>
  );
}

const choices: readonly { readonly value: Kind; readonly text: string }[] = [
  { value: 'more time', text: 'More time before a pass' },
  { value: 'far face insulated', text: 'Far face insulated' },
  { value: 'probe left out', text: 'One probe left out' },
  { value: 'other limits', text: 'Other limits' },
];

const number = (text: string): number | undefined => {
  const read = readNumber(text.trim());
  return read.kind === 'number' ? read.value : undefined;
};
