/** What only a person can say of the logs: one question each, in large choices; an answer can be given anew. */
import { useSignal } from '@preact/signals';
import type { LogsView } from '../../../server/screen/contract.ts';
import { ChoiceField, entryOf, TextField } from '../../parts/field.tsx';
import { questionsOf, said, say } from './logs-draft.ts';

/** What is asked, by the name of the question. */
export const words: Readonly<Record<string, string>> = {
  unit: 'Unit of the columns that state none',
  decimal: 'The decimal mark',
  order: 'The order in which dates are written',
  numbers: 'What the numbers of the time column are',
  clock: 'What these times are',
  sheet: 'The sheet of the workbook',
  timeUnit: 'What elapsed time counts',
};
export const choiceNames: Readonly<Record<string, string>> = {
  C: 'degrees Celsius',
  F: 'degrees Fahrenheit',
  K: 'kelvin',
  '.': 'point: 20.5',
  ',': 'comma: 20,5',
  ms: 'milliseconds',
  s: 'seconds',
  min: 'minutes',
  h: 'hours',
};
export const fixedChoices: Readonly<Record<string, readonly string[]>> = {
  unit: ['C', 'F', 'K'],
  decimal: ['.', ','],
  order: ['year month day', 'day month year', 'month day year'],
  numbers: ['elapsed', 'spreadsheet days', 'unix seconds', 'unix milliseconds'],
  timeUnit: ['ms', 's', 'min', 'h'],
  clock: ['elapsed', 'time of day', 'elapsed h:mm', 'elapsed mm:ss'],
};

export function Questions({ read }: { readonly read: LogsView }) {
  const { open, answered } = questionsOf(read, said.value);
  // What has other choices in each file is put right there, and not anew for all.
  const anew = answered.filter((name) => name !== 'sheet');
  const asked = [...open.keys(), ...anew].filter((name) => name !== 'columns');
  if (asked.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="questions">
      <h2 id="questions">{open.size > 0 ? 'Say what the files do not' : 'What was said of the files'}</h2>
      {asked.map((name) => (
        <Question key={name} name={name} why={open.get(name)?.message} choices={open.get(name)?.question?.choices} />
      ))}
    </section>
  );
}

interface QuestionProps {
  readonly name: string;
  readonly why: string | undefined;
  readonly choices: readonly string[] | undefined;
}

function Question({ name, why, choices }: QuestionProps) {
  const because = why === undefined ? {} : { problem: why };
  if (name === 'zone')
    return <Typed name="zone" label="Time zone of the logger's clock, as in Europe/Vienna" {...because} />;
  if (name === 'day') return <Typed name="day" label="Day on which the log begins, as in 2026-11-25" {...because} />;
  if (name === 'leaveOutRows') {
    return (
      <ChoiceField
        label="Rows that cannot be read"
        value={said.value.leaveOutRows === true ? 'out' : ''}
        choices={[{ value: 'out', text: 'Leave them out, and list them' }]}
        onValue={() => void say('leaveOutRows', true)}
        {...because}
      />
    );
  }
  return (
    <ChoiceField
      label={words[name] ?? name}
      value={String(said.value[name] ?? '')}
      choices={(choices ?? fixedChoices[name] ?? []).map((value) => ({ value, text: choiceNames[value] ?? value }))}
      onValue={(value) => void say(name, value)}
      {...because}
    />
  );
}

function Typed({ name, label, problem }: { readonly name: string; readonly label: string; readonly problem?: string }) {
  const text = useSignal(
    String(said.value[name] ?? (name === 'zone' ? Intl.DateTimeFormat().resolvedOptions().timeZone : '')),
  );
  return (
    <div class="row wrap">
      <TextField label={label} problem={problem} {...entryOf(text)} />
      <button type="button" onClick={() => void say(name, text.value.trim())}>
        Take it
      </button>
    </div>
  );
}
