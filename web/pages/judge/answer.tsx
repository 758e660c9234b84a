/** The judgement of imported logs in words, and its report. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { findingSpan, findingText } from '../../../server/wording/finding.ts';
import { minimumText } from '../../../server/wording/requirement.ts';
import { scopeText, verdictText } from '../../../server/wording/verdict.ts';
import { report } from './logs-draft.ts';

interface AnswerProps {
  readonly assessment: Assessment;
  readonly elapsed: boolean;
  /** That the logger's clock is in, where it was said. */
  readonly zone: string;
}

export function Answer({ assessment, elapsed, zone }: AnswerProps) {
  const { findings, requirement } = assessment;
  return (
    <section class="sheet" aria-labelledby="answer">
      <h2 id="answer">{verdictText(assessment)}</h2>
      <p>{scopeText(assessment)}</p>
      <p>
        Minimum: {minimumText(requirement)}. {requirement.governing.because}
      </p>
      {elapsed && <p class="aside">The log counts elapsed time: durations are right, the dates shown mean nothing.</p>}
      {!elapsed && <p class="aside">Times in {zone}.</p>}
      <h3>{findings.length === 0 ? 'No findings' : `Findings (${findings.length})`}</h3>
      <ul>
        {findings.map((each) => (
          <li key={`${each.kind} ${each.from} ${each.probe} ${each.pass} ${each.part}`}>
            {findingText(each, requirement.units).what} <span class="place">{findingSpan(each, zone)}</span>
          </li>
        ))}
      </ul>
      <Report of={assessment} />
      {cautions.map((each) => (
        <p key={each} class="aside">
          {each}
        </p>
      ))}
    </section>
  );
}

/** Made when it is asked for: a link to it stands once it is there. */
function Report({ of }: { readonly of: Assessment }) {
  const made = useSignal<'none' | 'busy' | 'failed' | { readonly url: string }>('none');
  // What was said since may have changed the judgement: its report is made anew.
  useEffect(() => {
    made.value = 'none';
  }, [of]);
  const now = made.value;
  if (typeof now === 'object') {
    return (
      <a class="button act" href={now.url} target="_blank" rel="noreferrer">
        Open the report (PDF)
      </a>
    );
  }
  return (
    <>
      <button
        type="button"
        class="act"
        disabled={now === 'busy'}
        onClick={async () => {
          made.value = 'busy';
          const blob = await report();
          made.value = blob === undefined ? 'failed' : { url: URL.createObjectURL(blob) };
        }}
      >
        {now === 'busy' ? 'The report is being made' : 'Make the report (PDF)'}
      </button>
      {now === 'failed' && <p class="problem">The report could not be made. Ask again.</p>}
    </>
  );
}
