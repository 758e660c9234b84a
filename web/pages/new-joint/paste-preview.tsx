/** What was pasted of a certificate, and what it would become: to be compared with the paper before it fills the fields. */
import { useSignal } from '@preact/signals';
import { TextArea } from '../../parts/field.tsx';
import type { AnalysisDraft } from './draft.ts';
import { type Pasted, type PastedSample, readCertificate } from './paste-analysis.ts';

interface Props {
  readonly onTake: (contents: AnalysisDraft['contents']) => void;
}

export function PastePreview({ onTake }: Props) {
  const text = useSignal('');
  const taken = useSignal<string | undefined>(undefined);
  const pasted = text.value.trim() === '' ? undefined : readCertificate(text.value);
  const take = (sample: PastedSample): void => {
    onTake(Object.fromEntries(sample.rows.map(({ element, content }) => [element, content])));
    taken.value = `Filled in: ${sample.rows.map(({ element }) => element).join(', ')}.`;
    text.value = '';
  };
  return (
    <div class="paste">
      <TextArea
        label="Or paste a row or a table of the certificate"
        hint='As in "C 0.17 Si 0,35 Nb <0.005 B 5 ppm", or a row of symbols over a row of values.'
        value={text.value}
        onValue={(value) => {
          text.value = value;
          taken.value = undefined;
        }}
      />
      {taken.value !== undefined && (
        <p class="hint" role="status">
          {taken.value}
        </p>
      )}
      {pasted !== undefined && <Preview pasted={pasted} take={take} />}
    </div>
  );
}

function Preview({ pasted, take }: { readonly pasted: Pasted; readonly take: (sample: PastedSample) => void }) {
  const { samples, aside } = pasted;
  return (
    <section class="preview" aria-label="What was read">
      {samples.length === 0 && <p>No symbol with its value was found in this text.</p>}
      {samples.map((sample, index) => (
        // The place is the key: a row of values has no identity but its place
        <div key={index} class="preview-sample">
          {(samples.length > 1 || sample.label !== '') && (
            <h4>{sample.label === '' ? `Row ${index + 1}` : sample.label}</h4>
          )}
          <div class="scroll-x">
            <table>
              <thead>
                <tr>
                  <th scope="col">Symbol</th>
                  <th scope="col">Read</th>
                  <th scope="col">Becomes</th>
                </tr>
              </thead>
              <tbody>
                {sample.rows.map(({ element, read, content, slip }) => (
                  <tr key={element} class={slip === undefined ? '' : 'wrong'}>
                    <th scope="row">{element}</th>
                    <td>{read}</td>
                    <td>
                      {content.how === 'not reported'
                        ? 'not reported'
                        : `${content.how === 'at most' ? 'at most ' : ''}${content.text} %`}
                      {slip !== undefined && <p class="problem">Not possible: {slip}</p>}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <button type="button" onClick={() => take(sample)}>
            {samples.length > 1 ? `Fill the fields from ${sample.label || `row ${index + 1}`}` : 'Fill the fields'}
          </button>
        </div>
      ))}
      {aside.length > 0 && (
        <div class="aside-list">
          <strong>Not taken</strong>
          <ul class="plain-list">
            {aside.map(({ text, why }, index) => (
              // The same words may stand on the paper twice
              <li key={index}>
                <code>{text}</code>: {why}
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}
