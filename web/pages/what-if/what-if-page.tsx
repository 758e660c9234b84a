/** What if: the judge run again over the record of this joint with one thing supposed otherwise. Marked so above everything; never recorded. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { unitsOf } from '../../../server/measure/units.ts';
import type { JointState } from '../../../server/screen/contract.ts';
import type { SupposedAnswer } from '../../../server/supposing/answer.ts';
import type { Question } from '../../../server/supposing/supposition.ts';
import { readingsAwayText } from '../../../server/wording/removal.ts';
import { notTheRecord, whatItIs } from '../../../server/wording/supposing.ts';
import { verdictText } from '../../../server/wording/verdict.ts';
import { sourceMark, sourceText } from '../../../server/wording/words.ts';
import { getJson, postJson } from '../../feed/http.ts';
import { useTitle } from '../../parts/title.ts';
import { jointAddress } from '../../state/route.ts';
import { Answered } from './answered.tsx';
import { SupposeForm } from './suppose-form.tsx';

type Asked =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'busy' }
  | { readonly kind: 'refused'; readonly why: string }
  | { readonly kind: 'answer'; readonly answer: SupposedAnswer };

export function WhatIfPage({ joint }: { readonly joint: string }) {
  useTitle(`What if: ${joint}`);
  const state = useSignal<JointState | 'loading' | 'failed'>('loading');
  const asked = useSignal<Asked>({ kind: 'nothing' });
  const path = `/api/joints/${encodeURIComponent(joint)}`;
  useEffect(() => {
    let left = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    // A closed joint of a long job is judged before it is answered, and then kept: it is asked for until it is there.
    const fetchJoint = async (): Promise<void> => {
      const answer = await getJson<JointState>(path);
      if (left) return;
      if (answer.kind === 'unreachable') timer = setTimeout(() => void fetchJoint(), 1_000);
      else state.value = answer.kind === 'ok' ? answer.value : 'failed';
    };
    void fetchJoint();
    return () => {
      left = true;
      clearTimeout(timer);
    };
  }, [path]);
  const now = state.value;
  if (now === 'loading') return <p class="notice">Asking the station for the joint. A long job takes some seconds.</p>;
  if (now === 'failed')
    return <p class="notice loud">The joint could not be fetched. Go back to the joints and try again.</p>;
  const ask = async (question: Question): Promise<void> => {
    asked.value = { kind: 'busy' };
    asked.value = await answerOf(path, question);
  };
  const { readingsRemoved } = now;
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  if (readingsRemoved !== undefined)
    return (
      <article class="what-if stack" aria-labelledby="what-if-title">
        <h1 id="what-if-title">What if: {now.joint.title}</h1>
        <p class="notice readings-away">{readingsAwayText(joint, readingsRemoved, zone)}</p>
        <a class="button" href={jointAddress(joint)}>
          To the joint
        </a>
      </article>
    );
  const { source } = now.assessment;
  return (
    <article class="what-if stack" aria-labelledby="what-if-title">
      <p class="banner stop-mark">
        <strong>{notTheRecord}</strong> {whatItIs}
      </p>
      {sourceMark(source) !== undefined && <p class="banner source">{sourceText(source)}</p>}
      <div class="joint-head">
        <h1 id="what-if-title">What if: {now.joint.title}</h1>
        <span class="grow" />
        <a class="button no-print" href={jointAddress(joint)}>
          To the joint
        </a>
      </div>
      <p>{verdictText(now.assessment)}</p>
      <SupposeForm
        joint={now.joint}
        passes={now.assessment.passes}
        newest={now.assessment.at}
        ask={(question) => void ask(question)}
      />
      <p role="status" class="aside">
        {asked.value.kind === 'busy' ? 'The judge goes through the record again. A long job takes some seconds.' : ''}
      </p>
      {asked.value.kind === 'refused' && (
        <p class="notice loud" role="alert">
          {asked.value.why}
        </p>
      )}
      {asked.value.kind === 'answer' && <Answered answer={asked.value.answer} units={unitsOf(now.joint)} />}
    </article>
  );
}

async function answerOf(path: string, question: Question): Promise<Asked> {
  const answer = await postJson<SupposedAnswer>(`${path}/what-if`, question, undefined, undefined, patience);
  switch (answer.kind) {
    case 'ok':
      return { kind: 'answer', answer: answer.value };
    case 'problems':
      return {
        kind: 'refused',
        why: answer.problems.map(({ found, allowed }) => `Found ${found}; allowed: ${allowed}.`).join(' '),
      };
    case 'unreachable':
      return {
        kind: 'refused',
        why: 'No answer came in time. A very long job can take longer: use the command "what-if", or ask again.',
      };
    default:
      return { kind: 'refused', why: 'The station could not answer. Load the page again, then ask once more.' };
  }
}

/** A day of readings is judged twice or three times. */
const patience = 120_000;
