/** One labelled entry with its unit and its problem. The problem is tied to the entry, so that it is read out with it. */
import type { Signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';

interface Common {
  readonly label: string;
  /** Path as the schema names it; a problem is looked up and the entry is found by it. */
  readonly field?: string;
  readonly problem?: string | undefined;
  readonly hint?: string;
  /** Said beside the label where the field may stay empty. */
  readonly optional?: 'if known' | 'if stated' | boolean;
}

interface TextProps extends Common {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly unit?: string;
  readonly kind?: 'text' | 'number';
  readonly suggestions?: readonly string[];
  readonly wide?: boolean;
}

export function TextField({ value, onValue, unit, kind = 'text', suggestions, wide, ...common }: TextProps) {
  const id = useId();
  const list = suggestions === undefined ? undefined : `${id}-list`;
  return (
    <Frame id={id} {...common} {...(wide === undefined ? {} : { wide })}>
      <span class={unit === undefined ? 'entry' : 'entry with-unit'}>
        <input
          {...tied(id, common)}
          type="text"
          inputMode={kind === 'number' ? 'decimal' : 'text'}
          autoComplete="off"
          value={value}
          list={list}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
        {unit !== undefined && <span class="unit">{unit}</span>}
      </span>
      {suggestions !== undefined && (
        <datalist id={list}>
          {suggestions.map((each) => (
            <option key={each} value={each} />
          ))}
        </datalist>
      )}
    </Frame>
  );
}

export function TextArea({
  value,
  onValue,
  ...common
}: Common & { readonly value: string; readonly onValue: (value: string) => void }) {
  const id = useId();
  return (
    <Frame id={id} {...common} wide>
      <textarea {...tied(id, common)} rows={3} value={value} onInput={(event) => onValue(event.currentTarget.value)} />
    </Frame>
  );
}

interface SelectProps<T extends string> extends Common {
  readonly value: T;
  readonly choices: readonly { readonly value: T; readonly text: string }[];
  readonly onValue: (value: T) => void;
}

export function SelectField<T extends string>({ value, choices, onValue, ...common }: SelectProps<T>) {
  const id = useId();
  return (
    <Frame id={id} {...common}>
      <select {...tied(id, common)} value={value} onChange={(event) => onValue(event.currentTarget.value as T)}>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.text}
          </option>
        ))}
      </select>
    </Frame>
  );
}

/** A few choices all in sight: for gloves, rather than a list that folds out. */
export function ChoiceField<T extends string>({ label, value, choices, onValue, problem }: SelectProps<T>) {
  const name = useId();
  return (
    <fieldset>
      <legend>{label}</legend>
      <div class="choices">
        {choices.map((choice) => (
          <label key={choice.value} class={choice.value === value ? 'chosen' : ''}>
            <input type="radio" name={name} checked={choice.value === value} onChange={() => onValue(choice.value)} />
            {choice.text}
          </label>
        ))}
      </div>
      {problem !== undefined && <p class="problem">{problem}</p>}
    </fieldset>
  );
}

/** The entry shows what the signal holds, and what is typed or chosen goes there. */
export const entryOf = <T,>(signal: Signal<T>): { readonly value: T; readonly onValue: (value: T) => void } => ({
  value: signal.value,
  onValue: (value) => {
    signal.value = value;
  },
});

function Frame({
  id,
  label,
  optional,
  hint,
  problem,
  wide,
  children,
}: Common & { readonly id: string; readonly wide?: boolean; readonly children: ComponentChildren }) {
  return (
    <div class={`field${wide === true ? ' wide' : ''}${problem === undefined ? '' : ' wrong'}`}>
      <label for={id}>
        {label}
        {optional !== undefined && optional !== false && (
          <span class="optional"> {optional === true ? 'if known' : optional}</span>
        )}
      </label>
      {children}
      {hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {problem !== undefined && (
        <p class="problem" id={`${id}-problem`}>
          {problem}
        </p>
      )}
    </div>
  );
}

const tied = (id: string, { field, problem, hint }: Common): Readonly<Record<string, string | boolean>> => {
  const described = [
    ...(hint === undefined ? [] : [`${id}-hint`]),
    ...(problem === undefined ? [] : [`${id}-problem`]),
  ].join(' ');
  return {
    id,
    ...(field === undefined ? {} : { 'data-field': field }),
    ...(problem === undefined ? {} : { 'aria-invalid': true }),
    ...(described === '' ? {} : { 'aria-describedby': described }),
  };
};
