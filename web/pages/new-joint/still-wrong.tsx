/** What a form still lacks, each with the way to its field; and why it was not sent. */

import type { Problems } from './candidate.ts';
import { fieldWords } from './field-words.ts';
import { showFirst } from './use-draft.ts';

export function StillWrong({
  problems,
  failure,
}: {
  readonly problems: Problems;
  readonly failure: string | undefined;
}) {
  const shown = Object.entries(problems);
  return (
    <>
      {shown.length > 0 && (
        <div class="notice loud" role="alert">
          <strong>{shown.length === 1 ? 'One field is' : `${shown.length} fields are`} still to be mended:</strong>
          <ul class="plain-list">
            {shown.slice(0, 12).map(([field, problem]) => (
              <li key={field}>
                <button type="button" class="link" onClick={() => showFirst([field])}>
                  {fieldWords(field)}
                </button>{' '}
                {problem}
              </li>
            ))}
          </ul>
        </div>
      )}
      {failure !== undefined && (
        <p class="notice loud" role="alert">
          {failure}
        </p>
      )}
    </>
  );
}
