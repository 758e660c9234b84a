/** Instruments that are no board: say how one is read, see live what it gives before anything is recorded, then keep it. */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { ConnectionKind } from '../../../server/weld/connection/connection.ts';
import { ChoiceField } from '../../parts/field.tsx';
import { useTitle } from '../../parts/title.ts';
import { connectionOf, emptyDraft, kindTexts } from './draft.ts';
import { type Draft, entryIn, entryOf } from './entries.ts';
import { ConnectionFields, problemText } from './fields.tsx';
import { Kept } from './kept.tsx';
import { Trial } from './trial.tsx';
import { type InstrumentsDesk, useInstruments } from './use-instruments.ts';
import { Waiting } from './waiting.tsx';

export function InstrumentsPage() {
  useTitle('Instruments');
  const desk = useInstruments();
  /** The file as somebody changed it; absent while it comes of the fields. */
  const own = useSignal<string | undefined>(undefined);
  return (
    <article class="connecting" aria-labelledby="instruments-title">
      <div class="joint-head">
        <h1 id="instruments-title">Instruments</h1>
      </div>
      <p class="banner source">
        On trial nothing is recorded. Once it is kept, probes of a joint name the instrument as their board, and its
        readings count as not verified until somebody says in the record what is connected.
      </p>
      <Cautions />
      <Kept desk={desk} />
      <Waiting
        desk={desk}
        tryOut={(text) => {
          own.value = text;
          void desk.tryOut(text);
        }}
      />
      <Connecting desk={desk} own={own} />
    </article>
  );
}

function Cautions() {
  return (
    <ul class="notice">
      <li>
        Heater and welding current can kill and can come along thermocouple wires: connect with both switched off.
      </li>
      <li>
        Use modules whose inputs are isolated from each other and from the bus. Tips on one part join all channels;
        without isolation the current of the arc flows through them.
      </li>
    </ul>
  );
}

function Connecting({ desk, own }: { readonly desk: InstrumentsDesk; readonly own: Signal<string | undefined> }) {
  const draft = useSignal<Draft>(emptyDraft);
  const { kind } = draft.value;
  const text = own.value ?? `${JSON.stringify(connectionOf(draft.value), null, 2)}`;
  useEffect(() => desk.end, []);
  const put = (name: string, value: string): void => {
    draft.value = { ...draft.value, [name]: value };
    own.value = undefined;
  };
  return (
    <section class="sheet" aria-labelledby="connecting">
      <h2 id="connecting">Connect an instrument</h2>
      <ChoiceField
        label="What it is"
        value={kind ?? ''}
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
      {kind !== '' && (
        <ConnectionFields
          draft={draft.value}
          put={put}
          ports={desk.view?.ports ?? []}
          problems={own.value === undefined ? desk.problems : []}
        />
      )}
      {(kind !== '' || own.value !== undefined) && (
        <>
          <details>
            <summary>The file that comes of it, to be changed by hand</summary>
            <textarea
              aria-label="Connection file"
              rows={18}
              spellcheck={false}
              value={text}
              onInput={(event) => {
                own.value = event.currentTarget.value;
              }}
            />
          </details>
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
        </>
      )}
      <Problems desk={desk} draft={draft.value} />
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
            onClick={() => void desk.keep(text)}
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

function Problems({ desk: { problems, failure }, draft }: { readonly desk: InstrumentsDesk; readonly draft: Draft }) {
  if (failure !== undefined)
    return (
      <p class="notice loud" role="alert">
        {failure}
      </p>
    );
  if (problems.length === 0) return null;
  const placeText = (field: string): string => {
    const name = draft.kind === '' ? undefined : entryIn(draft, field);
    return name === undefined ? field : entryOf(name).label;
  };
  // The same of each channel and module is told once.
  const told = new Map(
    problems.map((problem) => [`${placeText(problem.field)}: ${problemText(problem)}`, problem.field]),
  );
  return (
    <div class="notice loud" role="alert">
      <p>It cannot be tried yet:</p>
      <ul>
        {[...told].map(([text, field]) => (
          <li key={text} title={field}>
            {text}
          </li>
        ))}
      </ul>
    </div>
  );
}
