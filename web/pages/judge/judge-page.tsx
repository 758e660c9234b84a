/** Other people's logs: choose them and the joint, see how they were read, answer what has two readings, and have them judged. */
import { useEffect } from 'preact/hooks';
import type { LogFileView, LogLine } from '../../../server/screen/contract.ts';
import { readTexts, saidText } from '../../../server/wording/imported.ts';
import { useTitle } from '../../parts/title.ts';
import { joints, watchJoints } from '../../state/joints.ts';
import { Acts } from './acts.tsx';
import { Answer } from './answer.tsx';
import { Correct } from './correct.tsx';
import { Keep } from './keep.tsx';
import {
  ask,
  type ChosenFile,
  chooseJoint,
  chooseJointFile,
  chooseLogs,
  files,
  joint,
  state,
  takeAway,
  view,
} from './logs-draft.ts';
import { Questions } from './questions.tsx';

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
        Imported: what is read here was not measured by this station. Nothing of it is recorded unless you keep it.
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
          {read.files.map((each, index) => (
            <FileRead key={each.name} read={each} file={files.value[index]} probes={read.probes} />
          ))}
          <Acts />
          {read.assessment !== undefined && (
            <>
              <Answer assessment={read.assessment} elapsed={isElapsed(read.files)} zone={zoneOf(read.files)} />
              <Keep assessment={read.assessment} zone={zoneOf(read.files)} />
            </>
          )}
        </>
      )}
    </article>
  );
}

const isElapsed = (read: readonly LogFileView[]): boolean => read.some(({ timeForm }) => timeForm === 'elapsed');

const zoneOf = (read: readonly LogFileView[]): string => read.find((each) => each.read?.zone)?.read?.zone ?? 'UTC';

function Choosing() {
  const { open, closed = [] } = joints.value.kind === 'there' ? joints.value.value : { open: [] };
  const list = [...open, ...closed];
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
                  onClick={() => void takeAway({ id, name })}
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

interface FileReadProps {
  readonly read: LogFileView;
  /** Absent for a moment where a file was taken away and what was read of it is still shown. */
  readonly file: ChosenFile | undefined;
  readonly probes: readonly string[];
}

function FileRead({ read, file, probes }: FileReadProps) {
  const { name, rows, problems, remarks, skipped } = read;
  return (
    <section class="sheet" aria-label={name}>
      <h2>{name}</h2>
      {read.read !== undefined && (
        <>
          <ul class="how-read">
            {readTexts(read.read)
              .filter((text) => !(isUnitOpen(read) && text.startsWith('temperatures')))
              .map((text) => (
                <li key={text}>{text}</li>
              ))}
          </ul>
          <p class="aside">
            {rows > 0 ? `${rows} rows of readings. ` : ''}
            {saidText(read.read)}
          </p>
        </>
      )}
      <Lines title="What keeps it from being judged" lines={problems} loud />
      <Lines title="Remarks" lines={remarks} />
      {file !== undefined && <Correct key={file.id} file={file} read={read} probes={probes} />}
      <Lines title="Passed over, line by line" lines={skipped} folded />
    </section>
  );
}

/** A unit that is asked for is none yet. */
const isUnitOpen = ({ problems }: LogFileView): boolean => problems.some(({ question }) => question?.asks === 'unit');

function Lines({
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
