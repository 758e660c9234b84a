/** Everything that was found out of one file, each to be put right: what is chosen here holds for this file in place of the guess. */
import type { LogFileView } from '../../../server/screen/contract.ts';
import { delimiterText, offsetText } from '../../../server/wording/imported.ts';
import { SelectField } from '../../parts/field.tsx';
import { Chosen, Fixed, Typed } from './correct-fields.tsx';
import { asItWasFound, type ChosenFile, columnRows, type Said, saidOf, sayOf } from './logs-draft.ts';
import { choiceNames, fixedChoices } from './questions.tsx';

type Guess = NonNullable<LogFileView['guess']>;
interface Props {
  readonly file: ChosenFile;
  readonly guess: Guess;
  readonly own: Said;
}

interface CorrectProps {
  readonly file: ChosenFile;
  readonly read: LogFileView;
  readonly probes: readonly string[];
}

export function Correct({ file, read, probes }: CorrectProps) {
  const { guess, begins } = read;
  const own = saidOf.value[file.id] ?? {};
  const count = Object.keys(own).length;
  // What is no log at all has nothing to put right.
  if (guess === undefined && begins.length === 0) return null;
  // What stands in the way of reading it is put right here and nowhere else.
  const isNeeded = guess === undefined || read.problems.some(({ question }) => question?.asks === 'columns');
  return (
    <details class="put-right" open={isNeeded || count > 0}>
      <summary>Put right how it was read{count > 0 ? ` (${count} put right)` : ''}</summary>
      <ol class="first-lines" aria-label={`First lines of ${file.name}`}>
        {begins.map(({ line, text }) => (
          <li key={line} value={line} class={line === guess?.headerLine ? 'header-line' : ''}>
            {text}
          </li>
        ))}
      </ol>
      {guess === undefined ? (
        <Typed file={file} name="headerLine" label="Line of the column names" own={own} read={wholeOf} />
      ) : (
        <>
          <div class="columns-of-log">
            <Form file={file} guess={guess} own={own} />
            <Times file={file} guess={guess} own={own} form={read.timeForm} />
          </div>
          <Columns file={file} read={read} own={own} probes={probes} />
        </>
      )}
      {count > 0 && (
        <div class="row wrap">
          <button type="button" class="plain" onClick={() => void asItWasFound(file.id)}>
            All as it was found
          </button>
        </div>
      )}
    </details>
  );
}

const wholeOf = (text: string): number | undefined => (/^\d+$/.test(text) ? Number(text) : undefined);

/** How the rows are cut. */
function Form({ file, guess, own }: Props) {
  const others = guess.header.filter((each) => each !== '');
  return (
    <>
      {guess.sheet === undefined ? (
        <Chosen
          file={file}
          own={own}
          name="delimiter"
          label="Columns are parted by"
          found={delimiterText(guess.delimiter)}
          choices={[';', ',', '\t'].map((value) => ({ value, text: delimiterText(value) }))}
        />
      ) : (
        <Chosen
          file={file}
          own={own}
          name="sheet"
          label="Sheet"
          found={guess.sheet.name}
          choices={guess.sheet.choices.map((value) => ({ value, text: value }))}
        />
      )}
      <Typed
        file={file}
        own={own}
        name="headerLine"
        label="Line of the column names"
        found={String(guess.headerLine)}
        read={wholeOf}
      />
      <Fixed file={file} own={own} name="decimal" found={choiceNames[guess.decimal] ?? guess.decimal} />
      <Chosen
        file={file}
        own={own}
        name="timeColumn"
        label="Time column"
        found={guess.timeColumn}
        choices={others.map((value) => ({ value, text: value }))}
      />
      <Chosen
        file={file}
        own={own}
        name="dateColumn"
        label="Date column"
        found={guess.dateColumn ?? 'none'}
        choices={[{ value: '', text: 'none' }, ...others.map((value) => ({ value, text: value }))]}
      />
    </>
  );
}

/** What its times mean; asked only as far as they are written in such a way. */
function Times({ file, guess, own, form }: Props & { readonly form: LogFileView['timeForm'] }) {
  const { time, timeUnit } = guess;
  const isOpen = (name: string, found: unknown): boolean => found !== undefined || own[name] !== undefined;
  const isLocal = form !== 'elapsed' && form !== 'stamped';
  return (
    <>
      {isOpen('order', time.order) && <Fixed file={file} own={own} name="order" found={time.order} />}
      {isOpen('numbers', time.numbers) && <Fixed file={file} own={own} name="numbers" found={time.numbers} />}
      {isOpen('timeUnit', timeUnit) && (
        <Fixed file={file} own={own} name="timeUnit" found={timeUnit && choiceNames[timeUnit]} />
      )}
      {isOpen('clock', time.clock) && <Fixed file={file} own={own} name="clock" found={time.clock} />}
      {(isLocal || isOpen('zone', undefined)) && (
        <Typed file={file} own={own} name="zone" label="Time zone of its clock, as in Europe/Vienna" />
      )}
      {(isLocal || isOpen('offsetMinutes', undefined)) && (
        <Typed
          file={file}
          own={own}
          name="offsetMinutes"
          label="or its offset from UTC, where it never changes, as +01:00"
          read={offsetOf}
          show={(value) => offsetText(Number(value))}
        />
      )}
      {(form === 'elapsed' || isOpen('start', undefined)) && (
        <Typed
          file={file}
          own={own}
          name="start"
          label="When elapsed time began, as 2026-11-25T08:00:00+01:00"
          read={(text) => (/(Z|[+-]\d{2}:\d{2})$/.test(text) && !Number.isNaN(Date.parse(text)) ? text : undefined)}
        />
      )}
      {isOpen('day', time.clock) && (
        <Typed
          file={file}
          own={own}
          name="day"
          label="Day on which times of day begin, as 2026-11-25"
          read={(text) => (/^\d{4}-\d{2}-\d{2}$/.test(text) ? text : undefined)}
        />
      )}
      <Chosen
        file={file}
        own={own}
        name="leaveOutRows"
        label="Rows that cannot be read"
        found="none is judged"
        choices={[{ value: 'true', text: 'left out and listed' }]}
        meaning={() => true}
      />
    </>
  );
}

const offsetOf = (text: string): number | undefined => {
  const found = /^([+-])(\d{1,2}):?(\d{2})$/.exec(text);
  if (found === null) return text === 'Z' ? 0 : undefined;
  const minutes = Number(found[2]) * 60 + Number(found[3]);
  return found[1] === '-' ? 0 - minutes : minutes;
};

/** Which column is which probe, and in which unit. */
function Columns({ file, read, own, probes }: CorrectProps & { readonly own: Said }) {
  const rows = columnRows(read);
  const choices = [{ value: '', text: 'left out' }, ...probes.map((probe) => ({ value: probe, text: probe }))];
  const sayProbe = (column: string, probe: string): void => {
    const all = rows.map((row) => (row.column === column ? { ...row, probe } : row));
    void sayOf(
      file.id,
      'columns',
      Object.fromEntries(all.flatMap((row) => (row.probe === '' ? [] : [[row.column, row.probe]]))),
    );
  };
  const units = (own.units ?? {}) as Readonly<Record<string, string>>;
  return (
    <>
      <h3>Which column is which probe</h3>
      <div class="columns-of-log">
        {rows.map(({ column, probe, unit }) => (
          <div key={column} class="column-of-log">
            <SelectField label={column} value={probe} choices={choices} onValue={(value) => sayProbe(column, value)} />
            {probe !== '' && (
              <SelectField
                label={`Unit of ${column}`}
                value={units[column] ?? ''}
                choices={[
                  { value: '', text: `as found: ${choiceNames[unit] ?? unit}` },
                  ...(fixedChoices.unit ?? []).map((value) => ({ value, text: choiceNames[value] ?? value })),
                ]}
                onValue={(value) => {
                  const { [column]: _, ...rest } = units;
                  void sayOf(file.id, 'units', value === '' ? rest : { ...rest, [column]: value });
                }}
              />
            )}
          </div>
        ))}
      </div>
      <div class="row wrap">
        <button type="button" onClick={() => sayProbe('', '')}>
          The columns are as shown; leave the others out
        </button>
      </div>
    </>
  );
}
