/** The requirement of a joint that stands in the record, with what named persons have accepted. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Acceptance } from '../../../server/metallurgy/answer.ts';
import type { JointState, TimelineEvent } from '../../../server/screen/contract.ts';
import { sourceMark, sourceText } from '../../../server/wording/words.ts';
import { getJson } from '../../feed/http.ts';
import { PaperLinks } from '../../parts/paper-links.tsx';
import { useTitle } from '../../parts/title.ts';
import { jointAddress } from '../../state/route.ts';
import { Explained } from './explained.tsx';

interface Found {
  readonly state: JointState;
  readonly acceptances: readonly Acceptance[];
}

export function RequirementPage({ joint }: { readonly joint: string }) {
  useTitle(`Requirement of ${joint}`);
  const found = useSignal<Found | 'loading' | 'failed'>('loading');
  const path = `/api/joints/${encodeURIComponent(joint)}`;
  useEffect(() => {
    void Promise.all([getJson<JointState>(path), getJson<readonly TimelineEvent[]>(`${path}/timeline`)]).then(
      ([state, timeline]) => {
        found.value =
          state.kind === 'ok' && timeline.kind === 'ok'
            ? { state: state.value, acceptances: acceptancesOf(timeline.value) }
            : 'failed';
      },
    );
  }, [path]);
  const now = found.value;
  if (now === 'loading') return <p class="notice">Asking the station for the joint.</p>;
  if (now === 'failed')
    return <p class="notice loud">The joint could not be fetched. Go back to the joints and try again.</p>;
  const { state, acceptances } = now;
  const { source } = state.assessment;
  return (
    <article aria-labelledby="requirement-title">
      <div class="joint-head">
        <h1 id="requirement-title">{state.joint.title}: required preheat</h1>
        <span class="grow" />
        <a class="button" href={jointAddress(joint)}>
          To the joint
        </a>
        <PaperLinks path={path} />
      </div>
      {sourceMark(source) !== undefined && <p class="banner source">{sourceText(source)}</p>}
      <Explained joint={state.joint} acceptances={acceptances} />
    </article>
  );
}

/** What the record says was accepted, as the judge takes it. */
const acceptancesOf = (timeline: readonly TimelineEvent[]): Acceptance[] =>
  timeline.flatMap(({ kind, body, who }) => {
    if (kind !== 'accept' || typeof body !== 'object' || body === null) return [];
    const { subject, method } = body as { subject?: Acceptance['subject']; method?: string };
    return subject === undefined ? [] : [{ subject, who, ...(method === undefined ? {} : { method }) }];
  });
