/**
 * The head of a joint's record as a code to be photographed: whoever keeps the photo can show later that the record was
 * not rewritten. Fetched when it is asked for; it stands for the moment of the asking and says so.
 */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { encode } from 'uqr';
import type { HeadView } from '../../server/screen/contract.ts';
import { getJson } from '../feed/http.ts';

interface Props {
  readonly joint: string;
  /** Shown without being asked for: something was just released that nobody shall be able to take back unseen. */
  readonly atOnce?: boolean;
}

export function HeadCode({ joint, atOnce = false }: Props) {
  const path = `/api/joints/${encodeURIComponent(joint)}`;
  const shown = useSignal<HeadView | 'not heard' | undefined>(undefined);
  const show = async (): Promise<void> => {
    const answer = await getJson<HeadView>(`${path}/head`);
    shown.value = answer.kind === 'ok' ? answer.value : 'not heard';
  };
  useEffect(() => {
    if (atOnce) void show();
  }, []);
  const head = shown.value;
  if (head === undefined || head === 'not heard')
    return (
      <div class="head-code">
        {head === 'not heard' && <p role="alert">The station did not answer. Ask again.</p>}
        <button type="button" class="button" onClick={() => void show()}>
          Show the head to photograph
        </button>
      </div>
    );
  return (
    <figure class="head-code" aria-label="Head of the record">
      <Code text={head.text} />
      <figcaption>
        <p>
          <strong>Photograph this and keep it.</strong> It holds the record to its first {head.seq} entries: whoever has
          the station's key can rewrite them only until this has left the house. <q>verify</q> takes its text, or its
          file, after --head.
        </p>
        <code>{head.text}</code>
        {head.fingerprint === undefined ? (
          <p role="alert">Not signed: this record has no key.</p>
        ) : (
          <p class="place">signed by key {head.fingerprint.slice(0, 16)}</p>
        )}
        <div class="row wrap">
          <a class="button" href={`${path}/head.txt`} download>
            Head as a file
          </a>
          <button type="button" class="plain" onClick={() => void show()}>
            Show the newest
          </button>
        </div>
      </figcaption>
    </figure>
  );
}

function Code({ text }: { readonly text: string }) {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const squares = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1Z`] : [])));
  return (
    <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label="QR code of the head" shape-rendering="crispEdges">
      <rect width={size} height={size} fill="#fff" />
      <path d={squares.join('')} fill="#000" />
    </svg>
  );
}
