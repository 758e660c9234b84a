/** An entry for a number: of a quantity, in the unit of the job, or of anything else, with its own unit. */
import { TextField } from '../../parts/field.tsx';
import type { Entry } from './entry.tsx';
import { type QuantityKind, unitOf } from './quantity.ts';

interface Props {
  readonly entry: Entry;
  readonly label: string;
  /** Path as the schema names it. */
  readonly field: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly kind?: QuantityKind;
  readonly unit?: string;
  readonly optional?: 'if known' | 'if stated';
  readonly hint?: string;
}

export function NumberField({ entry, label, field, value, onValue, kind, unit, optional, hint }: Props) {
  const shown = kind === undefined ? unit : unitOf(kind, entry.draft.units);
  return (
    <TextField
      label={label}
      kind="number"
      field={field}
      value={value}
      problem={entry.problem(field)}
      {...(shown === undefined ? {} : { unit: shown })}
      {...(optional === undefined ? {} : { optional })}
      {...(hint === undefined ? {} : { hint })}
      onValue={(next) => {
        entry.touch(field);
        onValue(next);
      }}
    />
  );
}

/** Choices with the empty one first: nobody has said. */
export const orNone = (
  values: readonly string[],
  none = 'not stated',
  text = (value: string): string => value,
): readonly { readonly value: string; readonly text: string }[] => [
  { value: '', text: none },
  ...values.map((value) => ({ value, text: text(value) })),
];
