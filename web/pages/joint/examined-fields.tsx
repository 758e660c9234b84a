/** Who examined, and what was found: asked for after a break and for the spot of a probe that was welded on. */
import { examinationMethods } from '../../../server/weld/break.ts';
import { ChoiceField } from '../../parts/field.tsx';
import type { Sheet } from './use-sheet.ts';

export function ExaminedFields({ sheet: { draft, problems, set } }: { readonly sheet: Sheet }) {
  return (
    <>
      <ChoiceField
        label="Examined by"
        value={draft.by ?? ''}
        problem={problems.by}
        choices={examinationMethods.map((method) => ({ value: method as string, text: method }))}
        onValue={(value) => set('by', value)}
      />
      <ChoiceField
        label="Found"
        value={draft.result ?? ''}
        problem={problems.result}
        choices={[
          { value: 'no indication', text: 'No indication' },
          { value: 'indication', text: 'An indication' },
        ]}
        onValue={(value) => set('result', value)}
      />
    </>
  );
}
