/** One thing that was found out of a file: "as found" stands first, anything else is said of this file. */
import { useSignal } from '@preact/signals';
import { entryOf, SelectField, TextField } from '../../parts/field.tsx';
import { type ChosenFile, type Said, sayOf } from './logs-draft.ts';
import { choiceNames, fixedChoices, words } from './questions.tsx';

interface ChosenProps {
  readonly file: ChosenFile;
  readonly own: Said;
  readonly name: string;
  readonly label: string;
  readonly found: string | undefined;
  readonly choices: readonly { readonly value: string; readonly text: string }[];
  readonly meaning?: (value: string) => unknown;
}

/** "As found" stands first and takes the correction away. */
export function Chosen({ file, own, name, label, found, choices, meaning = (value) => value }: ChosenProps) {
  const first = { value: asFound, text: found === undefined ? 'as found' : `as found: ${found}` };
  return (
    <SelectField
      label={label}
      value={own[name] === undefined ? asFound : String(own[name])}
      choices={[first, ...choices]}
      onValue={(value) => void sayOf(file.id, name, value === asFound ? undefined : meaning(value))}
    />
  );
}
const asFound = '\u0000';

export function Fixed({ name, ...rest }: Omit<ChosenProps, 'label' | 'choices'>) {
  const choices = (fixedChoices[name] ?? []).map((value) => ({ value, text: choiceNames[value] ?? value }));
  return <Chosen {...rest} name={name} label={words[name] ?? name} choices={choices} />;
}

interface TypedProps {
  readonly file: ChosenFile;
  readonly own: Said;
  readonly name: string;
  readonly label: string;
  readonly found?: string;
  readonly read?: (text: string) => unknown;
  readonly show?: (value: unknown) => string;
}

/** Taken once the field is left, so that nothing is asked of half a word; emptied it is as found. */
export function Typed({ show = String, ...field }: TypedProps) {
  const { own, name } = field;
  const stands = own[name] === undefined ? '' : show(own[name]);
  // What was said elsewhere, or taken back, is shown at once.
  return <TypedField key={stands} {...field} stands={stands} />;
}

function TypedField({
  file,
  name,
  label,
  found,
  stands,
  read = (text) => text,
}: Omit<TypedProps, 'show'> & { readonly stands: string }) {
  const text = useSignal(stands);
  const wrong = useSignal(false);
  const take = (): void => {
    const typed = text.value.trim();
    const value = typed === '' ? undefined : read(typed);
    wrong.value = typed !== '' && value === undefined;
    if (!wrong.value && typed !== stands) void sayOf(file.id, name, value);
  };
  return (
    <div onFocusOut={take}>
      <TextField
        label={label}
        hint={found === undefined ? '' : `as found: ${found}`}
        problem={wrong.value ? 'It is not written like this.' : undefined}
        {...entryOf(text)}
      />
    </div>
  );
}
