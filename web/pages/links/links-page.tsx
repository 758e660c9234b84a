/** The page of links: which ports are read and how well, what is wrong in plain words, the lines as they come, captures. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CaptureRow, LinkRow, LinksView, PortRow } from '../../../server/screen/contract.ts';
import { getJson, postJson } from '../../feed/http.ts';
import { Glyph } from '../../parts/glyph.tsx';
import { useTitle } from '../../parts/title.ts';
import { Captures } from './captures.tsx';
import { RawLines } from './raw-lines.tsx';

const lookEvery = 1_000;

export function LinksPage() {
  useTitle('Links');
  const view = useSignal<LinksView | undefined>(undefined);
  const isHeard = useSignal(true);
  useEffect(() => {
    let over = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = async (): Promise<void> => {
      const answer = await getJson<LinksView>('/api/links');
      if (over) return;
      isHeard.value = answer.kind === 'ok';
      if (answer.kind === 'ok') view.value = answer.value;
      timer = setTimeout(look, lookEvery);
    };
    void look();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, []);
  const now = view.value;
  return (
    <section aria-labelledby="links-heading">
      <div class="joint-head">
        <h1 id="links-heading">Links</h1>
        <p class="aside">Ports and boards, and what is wrong where something is.</p>
      </div>
      {!isHeard.value && (
        <p class="notice loud">The station does not answer. What stands here is how it was; it is asked again.</p>
      )}
      {now === undefined ? (
        <p class="notice">Asking the station.</p>
      ) : (
        <>
          {now.links.length === 0 && <p class="notice">This station reads no port yet.</p>}
          {now.links.map((link) => (
            <OneLink key={link.port} link={link} />
          ))}
          <Unopened ports={now.unopened} />
          <Captures of={now.captures as readonly CaptureRow[]} />
        </>
      )}
    </section>
  );
}

const states: Readonly<Record<LinkRow['state'], string>> = {
  opening: 'Opening',
  'waiting for hello': 'Waiting for a board',
  open: 'Reading',
  lost: 'Lost',
  refused: 'Not read',
};

const stateText = ({ leftAlone, state, isBoardPort }: LinkRow): string =>
  leftAlone ? 'Left alone' : state === 'waiting for hello' && !isBoardPort ? 'Waiting for a reading' : states[state];

function OneLink({ link }: { readonly link: LinkRow }) {
  const isWatched = useSignal(false);
  const said = useSignal('');
  const send = async (path: string, body: object, done: string): Promise<void> => {
    const answer = await postJson(path, body);
    said.value =
      answer.kind === 'ok' ? done : answer.kind === 'refused' ? answer.because : 'The station did not take it.';
  };
  const { port, capturing } = link;
  return (
    <article class={`sheet link ${link.isWell ? 'well' : 'ill'}`} aria-label={port}>
      <div class="row wrap">
        <Glyph name={link.isWell ? 'met' : 'link'} />
        <h2 class="grow">
          {link.board ?? 'No board'} {link.simulated === true && <span class="tag">simulated</span>}
        </h2>
        <strong>{stateText(link)}</strong>
      </div>
      <p class="aside">
        {port} · {link.hardware}
        {link.baudRate === undefined ? '' : ` · ${link.baudRate} baud`}
      </p>
      <ul class="plain-list">
        {link.words.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <p>{countsText(link)}</p>
      {link.isHeard && (
        <div class="row wrap">
          {link.isBoardPort && link.state !== 'open' && (
            <button type="button" onClick={() => void send('/api/links/retry', { port }, 'It is tried now.')}>
              Try again
            </button>
          )}
          <button
            type="button"
            aria-expanded={isWatched.value}
            onClick={() => {
              isWatched.value = !isWatched.value;
            }}
          >
            {isWatched.value ? 'Hide the lines' : 'Show the lines'}
          </button>
          {!link.canCapture ? null : capturing === undefined ? (
            <button
              type="button"
              onClick={() =>
                void send(
                  '/api/links/capture',
                  { port, minutes: captureMinutes },
                  'The capture runs; it is listed below.',
                )
              }
            >
              Capture {captureMinutes} min
            </button>
          ) : (
            <button
              type="button"
              onClick={() => void send('/api/links/capture-end', { port }, 'The capture is ended; it is listed below.')}
            >
              End the capture
            </button>
          )}
          <span role="status">{said.value}</span>
        </div>
      )}
      {isWatched.value && <RawLines port={port} isBoard={link.isBoardPort} />}
    </article>
  );
}

const captureMinutes = 10;

function countsText(link: LinkRow): string {
  const { linesGood, linesBad, linesMissing, bytesDropped, faults, linesPerSecond, openings, losses } = link;
  const bad = faults.map(({ what, times }) => `${times} ${what}`).join(', ');
  return [
    linesPerSecond === undefined ? undefined : `${linesPerSecond.toFixed(1)} lines a second`,
    `${linesGood} good`,
    `${linesBad} not taken${bad === '' ? '' : ` (${bad})`}`,
    // An instrument that is no board numbers nothing.
    link.isBoardPort ? `${linesMissing} readings missing` : undefined,
    link.isBoardPort ? `${bytesDropped} bytes dropped` : undefined,
    openings === undefined ? undefined : `opened ${openings} ${openings === 1 ? 'time' : 'times'}, lost ${losses ?? 0}`,
  ]
    .filter((each) => each !== undefined)
    .join(' · ');
}

function Unopened({ ports }: { readonly ports: readonly PortRow[] }) {
  if (ports.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="unopened-heading">
      <h2 id="unopened-heading">Ports that are not opened</h2>
      <ul class="plain-list">
        {ports.map(({ port, hardware, words }) => (
          <li key={port}>
            <strong>{port}</strong> <span class="aside">{hardware}</span>
            <br />
            {words}
          </li>
        ))}
      </ul>
    </section>
  );
}
