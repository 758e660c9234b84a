/**
 * The readings of a closed joint out of the record into a package, or back, while the station runs: the package is handed in and
 * looked at first, what would be done is told, and only then somebody does it in their name.
 */
import { useSignal } from '@preact/signals';
import type { PackageSeen } from '../../server/weld/package-seen.ts';
import { rolesText } from '../../server/wording/duty.ts';
import { removalCautions } from '../../server/wording/removal.ts';
import { actKey, postFile, postJson } from '../feed/http.ts';
import { forWhom, nobodyYet, person } from '../state/person.ts';
import { entryOf, TextArea } from './field.tsx';

interface Props {
  readonly path: string;
  readonly way: PackageSeen['way'];
  readonly done: () => void;
}

export function ReadingsForm({ path, way, done }: Props) {
  const seen = useSignal<PackageSeen | 'looking' | undefined>(undefined);
  const reason = useSignal('');
  const said = useSignal<{ readonly done: boolean; readonly text: string } | undefined>(undefined);
  const key = useSignal(actKey());
  const refuse = (text: string): void => {
    said.value = { done: false, text };
  };
  const look = async (file: File | undefined): Promise<void> => {
    seen.value = undefined;
    said.value = undefined;
    if (file === undefined) return;
    if (person.peek() === undefined) return refuse(nobodyYet());
    seen.value = 'looking';
    const answer = await postFile<PackageSeen>(`${path}/readings/package`, file);
    seen.value = answer.kind === 'ok' ? answer.value : undefined;
    if (answer.kind !== 'ok') refuse(refusalOf(answer));
  };
  const move = async (of: PackageSeen): Promise<void> => {
    const who = person.peek();
    if (who === undefined) return refuse(nobodyYet());
    if (way === 'remove' && reason.value.trim() === '')
      return refuse('Say why: the reason stands in the record for ever.');
    const body = { who, package: of.id, reason: reason.value.trim() };
    const answer = await postJson<{ text: string }>(`${path}/readings`, body, key.peek());
    key.value = actKey();
    if (answer.kind !== 'ok') return refuse(refusalOf(answer));
    said.value = { done: true, text: `Done: ${answer.value.text}.` };
    seen.value = undefined;
    done();
  };
  const against = forWhom(dutyOf[way]);
  return (
    <div class="stack readings-form">
      <p class="hint">For {rolesText(dutyOf[way])}.</p>
      <label class="field wide">
        {way === 'remove' ? 'The package of this joint (.zip)' : 'The package that holds them (.zip)'}
        <input
          type="file"
          accept=".zip,application/zip"
          disabled={against !== undefined}
          onChange={(event) => void look(event.currentTarget.files?.[0])}
        />
      </label>
      {seen.value === 'looking' && <p role="status">Looking through the package.</p>}
      {seen.value !== undefined && seen.value !== 'looking' && (
        <>
          <Looked of={seen.value} />
          <TextArea
            label={
              way === 'remove' ? 'Why they are removed' : 'Why they are put back, if that is to stand in the record'
            }
            {...entryOf(reason)}
          />
          <button type="button" class="act" onClick={() => void move(seen.value as PackageSeen)}>
            {way === 'remove' ? 'Remove the readings in my name' : 'Put the readings back in my name'}
          </button>
        </>
      )}
      {said.value !== undefined && (
        <p class={said.value.done ? undefined : 'notice loud'} role={said.value.done ? 'status' : 'alert'}>
          {said.value.text}
        </p>
      )}
    </div>
  );
}

/** Folded away under the record of a closed joint: nobody needs it in the daily work. */
export function RemoveReadings({
  path,
  zone,
  done,
}: {
  readonly path: string;
  readonly zone: string;
  readonly done: () => void;
}) {
  return (
    <details class="stamp-form">
      <summary>Take the readings out of the record</summary>
      <p class="hint">
        The record keeps everything; this is for one that became too large. The readings then exist in the package only.
        Fetch it first, keep two copies of it in two places, and ask what contract, code and law want kept.
      </p>
      <div class="row wrap">
        <a class="button" href={`${path}/package.zip?zone=${zone}`} download>
          Fetch the package (ZIP)
        </a>
      </div>
      <ReadingsForm path={path} way="remove" done={done} />
    </details>
  );
}

function Looked({ of: { way, scans, bytes, sha256 } }: { readonly of: PackageSeen }) {
  return (
    <div class="notice">
      <p>
        {way === 'remove'
          ? `The package is intact and holds all ${scans} scans of this joint. ${sizeText(bytes)} would go out of the record.`
          : `The package is intact and holds all ${scans} scans of this joint. They would come back.`}
      </p>
      <p>
        SHA-256 of the package: <code>{sha256}</code>
      </p>
      {way === 'remove' && removalCautions.map((caution) => <p key={caution}>{caution}</p>)}
    </div>
  );
}

const dutyOf = { remove: 'remove readings', 'put back': 'put readings back' } as const;

const sizeText = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;

type Refused = Exclude<Awaited<ReturnType<typeof postJson>>, { kind: 'ok' }>;
const refusalOf = (sent: Refused): string => {
  if (sent.kind === 'problems')
    return sent.problems
      .map(({ field, allowed }) => (field.startsWith('who') ? `Only ${allowed}.` : allowed))
      .join(' ');
  if (sent.kind === 'unreachable') return 'The station did not answer. Choose the file again.';
  if (sent.kind === 'refused' && sent.status === 413)
    return 'The package is too large to be handed in here. Close the station and use the command remove-readings or put-back-readings.';
  return ('because' in sent && sent.because) || 'The station did not take it. Choose the file again.';
};
