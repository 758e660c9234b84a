/** What was done while the logs were written: by hand, one by one, or as an events file. Without it passes are not judged. */
import { useSignal } from '@preact/signals';
import { SelectField, TextField } from '../../parts/field.tsx';
import { type ActRow, actFields, actKinds, actLine, actRoles, actsText, freshRow, missingIn } from './act-rows.ts';
import { acts, ask, eventsFile } from './logs-draft.ts';

const choicesOf = (all: readonly string[]) =>
  all.map((each) => ({ value: each, text: each === '' ? 'not stated' : each }));

export function Acts() {
  return (
    <section class="sheet" aria-labelledby="acts">
      <h2 id="acts">What was done</h2>
      <p class="aside">
        Without heat and passes, soak and the minimum at the arc are not judged. Times are told as the log has them.
      </p>
      {acts.value.length > 0 && <Typed rows={acts.value} />}
      <NewAct />
      <EventsFile />
    </section>
  );
}

function Typed({ rows }: { readonly rows: readonly ActRow[] }) {
  return (
    <>
      <ul class="typed-acts">
        {rows.map((row, index) => (
          <li key={actLine(row)}>
            <span>{actLine(row)}</span>
            <button
              type="button"
              class="plain"
              aria-label={`Take away ${actLine(row)}`}
              onClick={() => {
                acts.value = acts.value.filter((_, at) => at !== index);
                void ask();
              }}
            >
              Take away
            </button>
          </li>
        ))}
      </ul>
      <p>
        <a
          class="button"
          download="events.csv"
          href={`data:text/csv;charset=utf-8,${encodeURIComponent(actsText(rows))}`}
        >
          Save these as an events file
        </a>
      </p>
    </>
  );
}

function NewAct() {
  const draft = useSignal<ActRow>(freshRow('heat on', {}));
  const row = draft.value;
  const put = (change: ActRow): void => {
    draft.value = { ...draft.value, ...change };
  };
  const missing = missingIn(row);
  return (
    <>
      <div class="row wrap">
        <TextField label="When" value={row.time ?? ''} onValue={(time) => put({ time })} />
        <SelectField
          label="What"
          value={row.kind ?? ''}
          choices={choicesOf(actKinds)}
          onValue={(kind) => {
            draft.value = { ...freshRow(kind, row), time: row.time ?? '' };
          }}
        />
        {(actFields[row.kind ?? ''] ?? []).map(({ column, label, choices, optional }) =>
          choices === undefined ? (
            <TextField
              key={`${row.kind} ${column}`}
              label={label}
              value={row[column] ?? ''}
              {...(optional === true ? { optional: true } : {})}
              onValue={(value) => put({ [column]: value })}
            />
          ) : (
            <SelectField
              key={`${row.kind} ${column}`}
              label={label}
              value={row[column] ?? ''}
              choices={choicesOf(choices)}
              onValue={(value) => put({ [column]: value })}
            />
          ),
        )}
        <TextField label="Who" value={row.who ?? ''} onValue={(who) => put({ who })} />
        <SelectField
          label="Their part"
          value={row.role ?? ''}
          choices={choicesOf(actRoles)}
          onValue={(role) => put({ role })}
        />
        <button
          type="button"
          disabled={missing.length > 0}
          onClick={() => {
            acts.value = [...acts.value, row];
            draft.value = freshRow(row.kind ?? 'heat on', row);
            void ask();
          }}
        >
          Add it
        </button>
      </div>
      {missing.length > 0 && <p class="hint">Still wanted: {missing.join(', ')}.</p>}
    </>
  );
}

function EventsFile() {
  const file = eventsFile.value;
  return (
    <div class="row wrap">
      <label class="field">
        {file === undefined ? 'or an events file (CSV)' : `Events file: ${file.name}`}
        <input
          type="file"
          onChange={async (event) => {
            const [chosen] = event.currentTarget.files ?? [];
            if (chosen === undefined) return;
            eventsFile.value = { name: chosen.name, text: await chosen.text() };
            await ask();
          }}
        />
      </label>
      {file !== undefined && (
        <button
          type="button"
          class="plain"
          onClick={() => {
            eventsFile.value = undefined;
            void ask();
          }}
        >
          Take {file.name} away
        </button>
      )}
    </div>
  );
}
