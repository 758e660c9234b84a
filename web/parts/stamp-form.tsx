/** A head stamped by an authority outside, while the station runs: the request is taken along as a file, and comes back with the answer. */
import { useSignal } from '@preact/signals';
import { postJson } from '../feed/http.ts';

const chooseBoth = 'Choose both files: the request that was taken from here, and the answer that came for it.';

export function StampForm({ path }: { readonly path: string }) {
  const request = useSignal<File | undefined>(undefined);
  const answer = useSignal<File | undefined>(undefined);
  const said = useSignal<{ readonly kept: boolean; readonly text: string } | undefined>(undefined);
  const hand = async (): Promise<void> => {
    said.value = undefined;
    if (request.value === undefined || answer.value === undefined) {
      said.value = { kept: false, text: chooseBoth };
      return;
    }
    const [asked, answered] = await Promise.all([base64Of(request.value), base64Of(answer.value)]);
    const sent = await postJson<{ text: string }>(`${path}/stamps`, { request: asked, answer: answered });
    said.value =
      sent.kind === 'ok' ? { kept: true, text: `Kept: ${sent.value.text}.` } : { kept: false, text: refusalOf(sent) };
  };
  const file = (label: string, accept: string, into: typeof request) => (
    <label class="field wide">
      {label}
      <input
        type="file"
        accept={accept}
        onChange={(event) => {
          into.value = event.currentTarget.files?.[0];
        }}
      />
    </label>
  );
  return (
    <details class="stamp-form">
      <summary>Have the head stamped by an authority outside</summary>
      <p class="hint">
        A time stamp authority that you trust vouches that everything recorded so far was there at that time. It sees a
        hash and nothing else. Nothing is sent from here: take the request, send it to the authority with any tool, and
        hand both files in.
      </p>
      <div class="row wrap">
        <a class="button" href={`${path}/stamp-request.tsq`} download>
          Request (.tsq)
        </a>
      </div>
      {file('The request that was sent (.tsq)', '.tsq', request)}
      {file('The answer that came (.tsr)', '.tsr', answer)}
      <div class="row wrap">
        <button type="button" class="button" onClick={() => void hand()}>
          Keep the time stamp
        </button>
      </div>
      {said.value !== undefined && <p role={said.value.kept ? 'status' : 'alert'}>{said.value.text}</p>}
    </details>
  );
}

type Refused = Exclude<Awaited<ReturnType<typeof postJson>>, { kind: 'ok' }>;
const refusalOf = (sent: Refused): string => {
  if (sent.kind === 'problems') return sent.problems.map(({ allowed }) => allowed).join(' ');
  if (sent.kind === 'unreachable') return 'The station did not answer. Hand both files in again.';
  return ('because' in sent && sent.because) || 'The station did not take it. Hand both files in again.';
};

const base64Of = async (file: Blob): Promise<string> => {
  const bytes = new Uint8Array(await file.slice(0, 200_000).arrayBuffer());
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
};
