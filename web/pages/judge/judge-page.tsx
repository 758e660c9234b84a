/** Other people's logs: choose them and the joint, see how they were read, answer what has two readings, and have them judged. */
import { useEffect } from 'preact/hooks';
import type { LogFileView, LogLine } from '../../../server/screen/contract.ts';
import { useTitle } from '../../parts/title.ts';
import { joints, watchJoints } from '../../state/joints.ts';
import { Acts } from './acts.tsx';
import { Answer } from './answer.tsx';
import { ask, chooseJoint, chooseJointFile, chooseLogs, files, joint, state, view } from './logs-draft.ts';
import { Columns, Questions } from './questions.tsx';

export function JudgePage() {
  useTitle('Judge logs');
  useEffect(() => watchJoints(), []);
  const read = view.value;
  return (
    <article class="logs" aria-labelledby="logs-title">
      <div class="joint-head">
        <h1 id="logs-title">Judge logs of another instrument</h1>
      </div>
      <p class="banner source">
        Imported: what is read here was not measured by this station, and nothing of it is recorded.
      </p>
      <Choosing />
      {state.value.kind === 'failed' && (
        <p class="notice loud" role="alert">
          {state.value.why}{' '}
          <button type="button" class="plain" onClick={() => void ask()}>
            Ask again
          </button>
        </p>
      )}
      <p class="aside" role="status">
        {state.value.kind === 'busy' ? 'The station reads and judges.' : ''}
      </p>
      {read !== undefined && (
        <>
          <Questions read={read} />
          {read.problems.length > 0 && <Lines title="Of the files together" lines={read.problems} loud />}
          {read.remarks.length > 0 && <Lines title="How they were joined" lines={read.remarks} />}
          {read.files.map((each) => (
            <FileRead key={each.name} file={each} />
          ))}
          <Columns read={read} />
          <Acts />
          {read.assessment !== undefined && <Answer assessment={read.assessment} elapsed={isElapsed(read.files)} />}
        </>
      )}
    </article>
  );
}

const isElapsed = (read: readonly LogFileView[]): boolean => read.some(({ timeForm }) => timeForm === 'elapsed');

function Choosing() {
  const list = joints.value.kind === 'there' ? joints.value.value : [];
  return (
    <section class="sheet" aria-labelledby="choosing">
      <h2 id="choosing">What is judged</h2>
      <fieldset
        class="drop"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          void chooseLogs([...(event.dataTransfer?.files ?? [])]);
        }}
      >
        <label class="field">
          Log files: CSV, TSV, text or workbooks (.xlsx); drop them here or choose them
          <input type="file" multiple onChange={(event) => void chooseLogs([...(event.currentTarget.files ?? [])])} />
        </label>
        {files.value.length > 0 && (
          <ul>
            {files.value.map(({ id, name }) => (
              <li key={id}>
                {name}{' '}
                <button
                  type="button"
                  class="plain"
                  aria-label={`Take ${name} away`}
                  onClick={() => {
                    files.value = files.value.filter((each) => each.id !== id);
                    if (files.value.length === 0) view.value = undefined;
                    void ask();
                  }}
                >
                  Take away
                </button>
              </li>
            ))}
          </ul>
        )}
      </fieldset>
      <div class="row wrap">
        <label class="field">
          Joint of this station
          <select
            value=""
            onChange={(event) => {
              if (event.currentTarget.value !== '') void chooseJoint(event.currentTarget.value);
            }}
          >
            <option value="">choose</option>
            {list.map(({ id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
          </select>
        </label>
        <label class="field">
          or a joint file
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              const [file] = event.currentTarget.files ?? [];
              if (file !== undefined) void chooseJointFile(file);
            }}
          />
        </label>
      </div>
      <p>
        {joint.value === undefined
          ? 'No joint chosen yet: its probes say what the columns can be.'
          : `Joint: ${joint.value.name}`}
      </p>
    </section>
  );
}

function FileRead({ file }: { readonly file: LogFileView }) {
  const { name, guess, rows, problems, remarks, skipped } = file;
  return (
    <section class="sheet" aria-label={name}>
      <h2>{name}</h2>
      {guess !== undefined && <p>{guessText(file)}</p>}
      {rows > 0 && <p class="aside">{rows} rows of readings.</p>}
      <Lines title="What keeps it from being judged" lines={problems} loud />
      <Lines title="Remarks" lines={remarks} />
      <Lines title="Passed over, line by line" lines={skipped} folded />
    </section>
  );
}

const delimiterNames: Readonly<Record<string, string>> = { '\t': 'tab', ';': 'semicolon', ',': 'comma' };

const guessText = ({ guess, problems }: LogFileView): string => {
  if (guess === undefined) return '';
  const { written, delimiter, headerLine, timeColumn, dateColumn, decimal, time, probes } = guess;
  const units = [...new Set(probes.map(({ unit }) => (unit === 'K' ? 'kelvin' : `°${unit}`)))];
  const said = [
    `Read as ${written}`,
    `columns parted by ${delimiterNames[delimiter] ?? delimiter}`,
    `header on line ${headerLine}`,
    dateColumn === undefined ? `time from "${timeColumn}"` : `date from "${dateColumn}" and time from "${timeColumn}"`,
    ...[time.order, time.numbers, time.clock].filter((each) => each !== undefined),
    `decimals parted by "${decimal}"`,
    // A unit that is asked for is none yet.
    ...(units.length === 0 || problems.some(({ question }) => question?.asks === 'unit')
      ? []
      : [`temperatures in ${units.join(' and ')}`]),
  ];
  return `${said.join('; ')}.`;
};

export function Lines({
  title,
  lines,
  loud,
  folded,
}: {
  readonly title: string;
  readonly lines: readonly LogLine[];
  readonly loud?: boolean;
  readonly folded?: boolean;
}) {
  if (lines.length === 0) return null;
  const list = (
    <ul class={loud === true ? 'problems' : ''}>
      {lines.map(({ line, column, message }) => (
        <li key={`${line} ${column} ${message}`}>
          {line === undefined ? '' : `line ${line}: `}
          {column === undefined ? '' : `${column}: `}
          {message}
        </li>
      ))}
    </ul>
  );
  return folded === true ? (
    <details>
      <summary>
        {title} ({lines.length})
      </summary>
      {list}
    </details>
  ) : (
    <div>
      <h3>{title}</h3>
      {list}
    </div>
  );
}
