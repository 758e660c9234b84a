/** Joints of before: found by what one remembers of them, and counted. Everything comes out of the record at this moment. */
import { useEffect } from 'preact/hooks';
import { useTitle } from '../../parts/title.ts';
import { pastAddress, pastCountsAddress } from '../../state/route.ts';
import { Counts } from './counts.tsx';
import { FoundList } from './found-list.tsx';
import { askCounts, askFound, period, question } from './question.ts';
import { QuestionForm } from './question-form.tsx';

/** While one types the station is asked when the hand rests. */
const rest = 150;

export function PastPage({ view }: { readonly view: 'found' | 'counts' }) {
  useTitle(view === 'found' ? 'Past joints' : 'Counts');
  const ask = view === 'found' ? askFound : askCounts;
  useEffect(() => {
    const timer = setTimeout(() => void ask(), rest);
    return () => clearTimeout(timer);
  }, [view, question.value, period.value]);
  return (
    <article class="past stack" aria-labelledby="past-title">
      <div class="joint-head">
        <h1 id="past-title">Past joints</h1>
        <nav class="views" aria-label="What is shown">
          <a class="button" href={pastAddress} aria-current={view === 'found' ? 'page' : undefined}>
            Find
          </a>
          <a class="button" href={pastCountsAddress} aria-current={view === 'counts' ? 'page' : undefined}>
            Count
          </a>
        </nav>
      </div>
      <QuestionForm />
      {view === 'found' ? <FoundList /> : <Counts />}
    </article>
  );
}
