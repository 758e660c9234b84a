/** One change at a time, in a few large choices; only what the joint has can be chosen. And the moment as of which it is judged. */
import { useSignal } from '@preact/signals';
import type { PassStatus } from '../../../server/judgement/pass-status.ts';
import { readNumber } from '../../../server/measure/number-text.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { momentOf } from '../../../server/past/days.ts';
import type { Question, Supposition } from '../../../server/supposing/supposition.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { ChoiceField, entryOf, SelectField, TextField } from '../../parts/field.tsx';

type Kind = Supposition['kind'];
type Limit = (typeof limitFields)[number]['name'];

interface Props {
  readonly joint: Joint;
  readonly passes: readonly PassStatus[];
  /** The newest moment of the record. */
  readonly newest: Instant;
  readonly ask: (question: Question) => void;
}

const limitFields = [
  { name: 'preheatMinimumCelsius', label: 'Minimum preheat', unit: '°C' },
  { name: 'interpassMaximumCelsius', label: 'Maximum interpass', unit: '°C' },
  { name: 'soakHoldMinutes', label: 'Hold with heaters on', unit: 'min' },
  { name: 'throughThicknessHoldMinutes', label: 'At the minimum through the thickness', unit: 'min' },
] as const;

export function SupposeForm({ joint, passes, newest, ask }: Props) {
  const kind = useSignal<Kind>(passes.length > 0 ? 'more time' : 'far face insulated');
  const probe = useSignal(joint.probes[0]?.id ?? '');
  const pass = useSignal(passes.at(-1)?.pass ?? '');
  const minutes = useSignal('2');
  const limits = useSignal<Partial<Record<Limit, string>>>({});
  const moment = useSignal('');
  const wrong = useSignal<string | undefined>(undefined);

  const press = (): void => {
    const read = question();
    wrong.value = typeof read === 'string' ? read : undefined;
    if (typeof read !== 'string') ask(read);
  };

  /** What is asked, or in words what is wrong with it. */
  const question = (): Question | string => {
    const supposed = supposition();
    if (typeof supposed === 'string') return supposed;
    if (moment.value.trim() === '') return { supposed };
    const at = momentOf(moment.value, newest, Intl.DateTimeFormat().resolvedOptions().timeZone);
    return at === undefined
      ? `"${moment.value}" is no moment: a time as 13:05, or with its day as 2026-11-25 13:05.`
      : { supposed, at };
  };

  const supposition = (): Supposition | string => {
    switch (kind.value) {
      case 'far face insulated':
        return { kind: 'far face insulated' };
      case 'probe left out':
        return { kind: 'probe left out', probe: probe.value };
      case 'more time': {
        const read = numberOf(minutes.value);
        if (typeof read === 'string') return read;
        return read === undefined ? 'How many minutes?' : { kind: 'more time', pass: pass.value, minutes: read };
      }
      case 'other limits': {
        const stated: Partial<Record<Limit, number>> = {};
        for (const { name } of limitFields) {
          const read = numberOf(limits.value[name] ?? '');
          if (typeof read === 'string') return read;
          if (read !== undefined) stated[name] = read;
        }
        return Object.keys(stated).length === 0
          ? 'Enter at least one limit.'
          : ({ kind: 'other limits', ...stated } as Supposition);
      }
    }
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
              choices={passes.map((each) => ({ value: each.pass, text: each.pass }))}
              {...entryOf(pass)}
            />
            <TextField label="More time" unit="min" kind="number" hint="Up to 60" {...entryOf(minutes)} />
          </>
        )}
        {kind.value === 'probe left out' && (
          <SelectField
            label="Probe"
            choices={joint.probes.map(({ id }) => ({ value: id, text: id }))}
            {...entryOf(probe)}
          />
        )}
        {kind.value === 'other limits' &&
          limitFields.map(({ name, label, unit }) => (
            <TextField
              key={name}
              label={label}
              unit={unit}
              kind="number"
              value={limits.value[name] ?? ''}
              onValue={(value) => {
                limits.value = { ...limits.value, [name]: value };
              }}
            />
          ))}
        <TextField
          label="As it stood at"
          hint="Empty: as it stands. Or 13:05, or 2026-11-25 13:05"
          {...entryOf(moment)}
        />
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

/** Undefined where nothing was entered; in words what is wrong. */
const numberOf = (text: string): number | undefined | string => {
  const read = readNumber(text.trim());
  if (read.kind === 'number') return read.value;
  return read.kind === 'none' ? undefined : `"${text}" is no number: digits, with one point or comma.`;
};
