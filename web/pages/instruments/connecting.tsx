/** One instrument from its manual to its readings: what is entered, kept on this device until it is read; its file; the trial. */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { ConnectionKind } from '../../../server/weld/connection/connection.ts';
import { ChoiceField } from '../../parts/field.tsx';
import { keep, kept } from '../../state/kept.ts';
import { connectionOf, emptyDraft, isDraft, kindTexts } from './draft.ts';
import { type Draft, entryIn, entryOf, entryProblem } from './entries.ts';
import { ConnectionFields } from './fields.tsx';
import { Trial } from './trial.tsx';
import type { InstrumentsDesk } from './use-instruments.ts';

const place = 'instrument draft';

export const fileText = (file: unknown): string => JSON.stringify(file, null, 2);

interface ConnectingProps {
  readonly desk: InstrumentsDesk;
  /** The file as somebody changed or brought it; absent while it comes of the fields. */
  readonly own: Signal<string | undefined>;
}

export function Connecting({ desk, own }: ConnectingProps) {
  const draft = useSignal<Draft>(kept(place, isDraft) ?? emptyDraft);
  const { kind } = draft.value;
  const text = own.value ?? fileText(connectionOf(draft.value));
  useEffect(() => desk.end, []);
  const put = (name: string, value: string): void => {
    draft.value = { ...draft.value, [name]: value };
    keep(place, draft.value);
  };
  return (
    <section class="sheet" aria-labelledby="connecting">
      <h2 id="connecting">Connect an instrument</h2>
      {own.value === undefined ? (
        <Entering desk={desk} own={own} draft={draft.value} put={put} text={text} />
      ) : (
        <OwnFile own={own} text={text} />
      )}
      {(kind !== '' || own.value !== undefined) && (
        <div class="row wrap">
          <button type="button" class="act" onClick={() => void desk.tryOut(text)}>
            Try it: show what is read
          </button>
          {desk.trial !== undefined && (
            <button type="button" onClick={() => void desk.end()}>
              Stop
            </button>
          )}
        </div>
      )}
      <Problems desk={desk} draft={draft.value} isOwn={own.value !== undefined} />
      {desk.trial !== undefined && (
        <>
          <h3>Read now, and not recorded</h3>
          <p>
            Warm one tip after the other in the hand: the right channel has to rise. Then open one input: it has to read
            as open.
          </p>
          <Trial view={desk.trial} />
          <button
            type="button"
            class="act"
            disabled={desk.view?.notKept !== undefined}
            onClick={async () => {
              if (await desk.keep(text)) keep(place, undefined);
            }}
          >
            Keep it: read it from now on
          </button>
          {desk.view?.notKept !== undefined && <p class="aside">It cannot be kept here: {desk.view.notKept}.</p>}
        </>
      )}
      <p role="status">{desk.said}</p>
    </section>
  );
}

interface EnteringProps extends ConnectingProps {
  readonly draft: Draft;
  readonly put: (name: string, value: string) => void;
  readonly text: string;
}

function Entering({ desk, own, draft, put, text }: EnteringProps) {
  return (
    <>
      <ChoiceField
        label="What it is"
        value={draft.kind ?? ''}
        choices={Object.entries(kindTexts).map(([value, name]) => ({
          value: value as ConnectionKind | '',
          text: name,
        }))}
        onValue={(value) => put('kind', value)}
      />
      <label class="field">
        or a connection file
        <input
          type="file"
          accept=".json,application/json"
          onChange={async (event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file !== undefined) own.value = await file.text();
          }}
        />
      </label>
      {draft.kind !== '' && (
        <>
          <ConnectionFields draft={draft} put={put} ports={desk.view?.ports ?? []} problems={desk.problems} />
          <details>
            <summary>The file that comes of it</summary>
            <pre>{text}</pre>
            <button
              type="button"
              onClick={() => {
                own.value = text;
              }}
            >
              Change this file by hand
            </button>
          </details>
        </>
      )}
    </>
  );
}

/** While the file is somebody's own the fields do not show: what they hold is not what is tried. */
function OwnFile({ own, text }: Pick<EnteringProps, 'own' | 'text'>) {
  return (
    <>
      <p>This file is tried and kept as it stands here. What it may hold stands in INSTRUMENTS.md.</p>
      <textarea
        aria-label="Connection file"
        rows={18}
        spellcheck={false}
        value={text}
        onInput={(event) => {
          own.value = event.currentTarget.value;
        }}
      />
      <button
        type="button"
        onClick={() => {
          own.value = undefined;
        }}
      >
        Back to the fields: leave this file
      </button>
    </>
  );
}

interface ProblemsProps {
  readonly desk: InstrumentsDesk;
  readonly draft: Draft;
  readonly isOwn: boolean;
}

function Problems({ desk: { problems, failure }, draft, isOwn }: ProblemsProps) {
  if (failure !== undefined)
    return (
      <p class="notice loud" role="alert">
        {failure}
      </p>
    );
  if (problems.length === 0) return null;
  const lines = problems.map((problem): readonly [string, string] => {
    const { field, found, allowed } = problem;
    const name = isOwn || draft.kind === '' ? undefined : entryIn(draft, field);
    return name === undefined
      ? [`${field}: found ${found}; wanted: ${allowed}`, field]
      : [`${entryOf(name).label}: ${entryProblem(draft, name, problem)}`, field];
  });
  return (
    <div class="notice loud" role="alert">
      <p>It cannot be tried yet:</p>
      <ul>
        {/* The same of each channel and module is told once. */}
        {[...new Map(lines)].map(([text, field]) => (
          <li key={text} title={field}>
            {text}
          </li>
        ))}
      </ul>
    </div>
  );
}
