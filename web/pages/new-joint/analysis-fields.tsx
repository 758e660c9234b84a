/** One chemical analysis: origin, paper, and each element as reported, bounded, or plainly not reported. */
import { analysisOrigins, elements } from '../../../server/weld/composition.ts';
import { begun } from '../../../server/wording/list.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import type { AnalysisDraft, ContentDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { PastePreview } from './paste-preview.tsx';

interface Props {
  readonly entry: Entry;
  readonly analysis: AnalysisDraft;
  /** Path of this analysis, as in "parts.0.analyses.1". */
  readonly path: string;
  readonly onChange: (analysis: AnalysisDraft) => void;
}

export function AnalysisFields({ entry, analysis, path, onChange }: Props) {
  const set = (part: Partial<AnalysisDraft>): void => onChange({ ...analysis, ...part });
  const fill = (contents: AnalysisDraft['contents']): void => {
    for (const element of Object.keys(contents)) entry.touch(`${path}.percent.${element}`);
    entry.touch(`${path}.percent`);
    set({ contents: { ...analysis.contents, ...contents } });
  };
  const sum = entry.problem(`${path}.percent`);
  return (
    <div class="analysis">
      <div class="fields">
        <SelectField
          label="Origin"
          field={`${path}.origin`}
          value={analysis.origin}
          problem={entry.problem(`${path}.origin`)}
          choices={analysisOrigins.map((origin) => ({ value: origin as string, text: begun(origin) }))}
          onValue={(origin) => set({ origin })}
        />
        <TextField
          label="Certificate"
          optional
          value={analysis.certificate}
          problem={entry.problem(`${path}.certificate`)}
          onValue={(certificate) => set({ certificate })}
        />
        <TextField
          label="Heat"
          optional
          value={analysis.heat}
          problem={entry.problem(`${path}.heat`)}
          onValue={(heat) => set({ heat })}
        />
      </div>
      <div class="elements">
        {elements.map((element) => (
          <ElementField
            key={element}
            element={element}
            content={analysis.contents[element]}
            problem={entry.problem(`${path}.percent.${element}`)}
            field={`${path}.percent.${element}`}
            onChange={(content) => fill({ [element]: content })}
          />
        ))}
      </div>
      {sum !== undefined && (
        <p class="problem" data-field={`${path}.percent`}>
          {sum}
        </p>
      )}
      <PastePreview onTake={fill} />
    </div>
  );
}

const hows: readonly { readonly value: ContentDraft['how']; readonly text: string }[] = [
  { value: 'reported', text: '=' },
  { value: 'at most', text: '\u2264' },
  { value: 'not reported', text: 'n.r.' },
];

interface ElementProps {
  readonly element: string;
  readonly content: ContentDraft | undefined;
  readonly problem: string | undefined;
  readonly field: string;
  readonly onChange: (content: ContentDraft) => void;
}

function ElementField({ element, content = { how: 'reported', text: '' }, problem, field, onChange }: ElementProps) {
  const silent = content.how === 'not reported';
  return (
    <div class={problem === undefined ? 'element' : 'element wrong'}>
      <span class="symbol">{element}</span>
      <select
        aria-label={`${element}: reported, at most, or not reported`}
        value={content.how}
        onChange={(event) => onChange({ ...content, how: event.currentTarget.value as ContentDraft['how'] })}
      >
        {hows.map((how) => (
          <option key={how.value} value={how.value} aria-label={how.value}>
            {how.text}
          </option>
        ))}
      </select>
      {silent ? (
        <span class="silent">not reported</span>
      ) : (
        <input
          type="text"
          inputMode="decimal"
          data-field={field}
          aria-label={`${element}, percent`}
          aria-invalid={problem !== undefined}
          autoComplete="off"
          value={content.text}
          onInput={(event) => onChange({ ...content, text: event.currentTarget.value })}
        />
      )}
      {problem !== undefined && <p class="problem">{problem}</p>}
    </div>
  );
}
