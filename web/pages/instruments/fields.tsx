/** The entries of one kind of connection, each with what is wrong with it. */
import type { Problem } from '../../../server/screen/contract.ts';
import { ChoiceField, SelectField, TextField } from '../../parts/field.tsx';
import { type Draft, type EntryName, entriesFor, entryIn, entryOf, entryProblem } from './entries.ts';

export interface FieldsProps {
  readonly draft: Draft;
  readonly put: (name: string, value: string) => void;
  readonly ports: readonly { readonly path: string; readonly detail: string }[];
  readonly problems: readonly Problem[];
}

export function ConnectionFields(props: FieldsProps) {
  const { draft, put } = props;
  return (
    <>
      {draft.kind === 'text lines' && (
        <ChoiceField
          label="Connected by"
          value={draft.line ?? 'serial'}
          choices={[
            { value: 'serial', text: 'a serial port' },
            { value: 'network', text: 'the network' },
          ]}
          onValue={(value) => put('line', value)}
        />
      )}
      <div class="instrument-fields">
        {entriesFor(draft).map((name) => (
          <OneEntry key={name} name={name} {...props} />
        ))}
      </div>
    </>
  );
}

function OneEntry({ name, draft, put, ports, problems }: FieldsProps & { readonly name: EntryName }) {
  const { label, hint, isNumber, choices } = entryOf(name);
  const wrong = problems.find(({ field }) => entryIn(draft, field) === name);
  const common = {
    label,
    value: draft[name] ?? '',
    onValue: (value: string) => put(name, value),
    ...(hint === undefined ? {} : { hint }),
    ...(wrong === undefined ? {} : { problem: entryProblem(draft, name, wrong) }),
  };
  if (choices !== undefined)
    return (
      <SelectField
        {...common}
        choices={[['', 'choose'] as const, ...choices].map(([value, text]) => ({ value, text }))}
      />
    );
  if (name === 'port') return <TextField {...common} {...portsOf(ports)} />;
  return <TextField {...common} {...(isNumber ? { kind: 'number' } : {})} />;
}

const portsOf = (ports: FieldsProps['ports']): { suggestions: readonly string[]; hint: string } => {
  const paths = ports.map(({ path }) => path);
  return {
    suggestions: paths,
    hint: paths.length === 0 ? 'As /dev/ttyUSB0 or COM3.' : `This machine lists ${paths.join(', ')}.`,
  };
};
