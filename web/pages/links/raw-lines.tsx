/** The newest lines of a port, both ways, as they come, newest first; what was not taken says why. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { RawLineView } from '../../../server/screen/contract.ts';
import { getJson } from '../../feed/http.ts';
import { clockText } from '../../format/time.ts';

const shown = 40;
const askEvery = 1_000;

export function RawLines({ port, isBoard }: { readonly port: string; readonly isBoard: boolean }) {
  const other = isBoard ? 'board' : 'instrument';
  const lines = useSignal<readonly RawLineView[]>([]);
  useEffect(() => {
    let over = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = async (): Promise<void> => {
      const after = lines.peek().at(-1)?.number ?? 0;
      const answer = await getJson<readonly RawLineView[]>(
        `/api/links/lines?port=${encodeURIComponent(port)}&after=${after}`,
      );
      if (over) return;
      if (answer.kind === 'ok') lines.value = [...lines.peek(), ...answer.value].slice(-shown);
      timer = setTimeout(ask, askEvery);
    };
    void ask();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }, [port]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and has to be reached by keys for that
    <ol class="raw-lines" aria-label={`Lines of ${port}`} tabIndex={0}>
      {lines.value.toReversed().map(({ number, at, way, text, fault }) => (
        <li key={number} class={fault === undefined ? way : 'bad'}>
          <span class="aside">
            {clockText(at)} {way === 'in' ? `from ${other}` : `to ${other}`}
            {fault === undefined ? '' : ` · not taken: ${fault}`}
          </span>
          <code>{printable(text)}</code>
        </li>
      ))}
      {lines.value.length === 0 && <li>No line yet.</li>}
    </ol>
  );
}

/** Noise is shown as what it is, and draws nothing on the page. */
const printable = (text: string): string =>
  text.replace(/[^\x20-\x7e]/g, (each) => `\\x${each.charCodeAt(0).toString(16).padStart(2, '0')}`);
