/** What was done while the logs were written: by hand, line by line, or as an events file. Without it passes are not judged. */
import { useSignal } from '@preact/signals';
import { SelectField, TextField } from '../../parts/field.tsx';
import { type ActRow, acts, ask, eventsFile } from './logs-draft.ts';

const kinds = ['heat on', 'heat off', 'pass start', 'pass end', 'close'] as const;
const passKinds = ['root', 'fill', 'cap', 'tack', 'temper bead', 'attachment', 'gouging', 'thermal cutting'] as const;
const none: ActRow = { time: '', kind: 'heat on', who: '', pass: '', passKind: 'root', side: 'A' };
const choicesOf = (all: readonly string[]) => all.map((each) => ({ value: each, text: each }));

export function Acts() {
  const draft = useSignal<ActRow>(none);
  const put = (change: Partial<ActRow>): void => {
    draft.value = { ...draft.value, ...change };
  };
  const { time, kind, who, pass, passKind, side } = draft.value;
  const isPass = kind === 'pass start' || kind === 'pass end';
  return (
    <section class="sheet" aria-labelledby="acts">
      <h2 id="acts">What was done</h2>
      <p class="aside">Without heat and passes, soak and the minimum at the arc are not judged.</p>
      {acts.value.length > 0 && (
        <ul>
          {acts.value.map((row, index) => (
            <li key={`${row.time} ${row.kind} ${row.pass}`}>
              {row.time}: {row.kind} {row.pass === '' ? '' : `of pass ${row.pass}`}, {row.who}{' '}
              <button
                type="button"
                class="plain"
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
      )}
      <div class="row wrap">
        <TextField label="When, as the log has it" value={time} onValue={(value) => put({ time: value })} />
        <SelectField label="What" value={kind} choices={choicesOf(kinds)} onValue={(value) => put({ kind: value })} />
        <TextField label="Who" value={who} onValue={(value) => put({ who: value })} />
        {isPass && <TextField label="Pass" value={pass} onValue={(value) => put({ pass: value })} />}
        {kind === 'pass start' && (
          <>
            <SelectField
              label="Kind of pass"
              value={passKind}
              choices={choicesOf(passKinds)}
              onValue={(value) => put({ passKind: value })}
            />
            <SelectField
              label="Side"
              value={side}
              choices={choicesOf(['A', 'B'])}
              onValue={(value) => put({ side: value })}
            />
          </>
        )}
        <button
          type="button"
          disabled={time.trim() === '' || who.trim() === '' || (isPass && pass.trim() === '')}
          onClick={() => {
            acts.value = [...acts.value, { ...draft.value, pass: isPass ? pass : '' }];
            draft.value = { ...none, who, kind, passKind, side };
            void ask();
          }}
        >
          Add it
        </button>
      </div>
      <label class="field">
        or an events file {eventsFile.value === undefined ? '' : `(${eventsFile.value.name})`}
        <input
          type="file"
          onChange={async (event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file === undefined) return;
            eventsFile.value = { name: file.name, text: await file.text() };
            await ask();
          }}
        />
      </label>
    </section>
  );
}
