/** Entering a joint, or correcting one: the form, and beside it the requirement as one types. */
import { useComputed, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import type { JointState } from '../../../server/screen/contract.ts';
import { jointSchema } from '../../../server/weld/joint.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { actKey, getJson, postJson } from '../../feed/http.ts';
import { TextArea } from '../../parts/field.tsx';
import { RequirementView } from '../../parts/requirement.tsx';
import { Section } from '../../parts/section/section.tsx';
import { sentOf } from '../../state/acts.ts';
import { keep, kept } from '../../state/kept.ts';
import { person } from '../../state/person.ts';
import { goTo, jointAddress } from '../../state/route.ts';
import { contact } from '../../state/station.ts';
import { candidateOf, metalCandidateOf, type Problems, previewOf, sentence } from './candidate.ts';
import { draftOf, emptyDraft, isDraft, type JointDraft } from './draft.ts';
import type { Entry } from './entry.tsx';
import { FileButtons } from './file-buttons.tsx';
import { IdentityFields, WeldingFields } from './job-fields.tsx';
import { PartFields } from './part-fields.tsx';
import { ProbeFields } from './probe-fields.tsx';
import { ProcedureFields } from './procedure-fields.tsx';

export function NewJointPage({ correcting }: { readonly correcting?: string }) {
  const place = correcting === undefined ? 'preheat.draft' : `preheat.draft.${correcting}`;
  const draft = useSignal<JointDraft>(kept(place, isDraft) ?? emptyDraft);
  const before = useSignal<JointDraft | undefined>(undefined);
  const touched = useSignal<ReadonlySet<string>>(new Set());
  const tried = useSignal(false);
  const fromStation = useSignal<Problems>({});
  const failure = useSignal<string | undefined>(undefined);
  const reason = useSignal('');
  const sending = useSignal(false);
  const key = useSignal(actKey());

  useEffect(() => {
    if (correcting === undefined || kept(place, isDraft) !== undefined) return;
    void getJson<JointState>(`/api/joints/${encodeURIComponent(correcting)}`).then((answer) => {
      if (answer.kind === 'ok') draft.value = draftOf(answer.value.joint);
      else failure.value = 'The joint could not be fetched from the station; go back and try again.';
    });
  }, []);

  const put = (next: JointDraft): void => {
    draft.value = next;
    key.value = actKey();
    keep(place, next);
  };
  const candidate = useComputed(() => candidateOf(draft.value));
  const metal = useComputed(() => metalCandidateOf(draft.value));
  const preview = useComputed(() => previewOf(draft.value));
  const answer = useComputed(() => (metal.value.ok ? requirement(metal.value.joint, []) : undefined));
  const problems: Problems = candidate.value.ok
    ? fromStation.value
    : { ...fromStation.value, ...candidate.value.problems };
  const entry: Entry = {
    draft: draft.value,
    change(part) {
      put({ ...draft.value, ...part });
    },
    problem: (field) => (tried.value || touched.value.has(field) ? problems[field] : undefined),
    touch(field) {
      if (!touched.value.has(field)) touched.value = new Set([...touched.value, field]);
      if (field in fromStation.value)
        fromStation.value = Object.fromEntries(Object.entries(fromStation.value).filter(([name]) => name !== field));
    },
  };

  const enter = async (): Promise<void> => {
    tried.value = true;
    failure.value = undefined;
    const now = candidate.peek();
    if (!now.ok) {
      showFirst(Object.keys(now.problems));
      return;
    }
    const who = person.peek();
    if (who === undefined) {
      failure.value = 'Say who you are first, at the top of the page: the record begins with your name.';
      return;
    }
    if (contact.peek().kind !== 'live') {
      failure.value = 'Not sent: the station is not heard. What you typed is kept on this device.';
      return;
    }
    if (correcting !== undefined && reason.value.trim() === '') {
      failure.value = 'Say why it is corrected: the reason stands in the record.';
      return;
    }
    sending.value = true;
    const sent = sentOf(
      correcting === undefined
        ? await postJson('/api/joints', { who, joint: now.joint }, key.peek())
        : await postJson(
            `/api/joints/${encodeURIComponent(correcting)}/acts`,
            { who, act: { kind: 'revise', joint: now.joint, reason: reason.value.trim() } },
            key.peek(),
          ),
    );
    sending.value = false;
    if (sent.kind === 'recorded') {
      keep(place, undefined);
      goTo(jointAddress(now.joint.id));
      return;
    }
    if (sent.kind === 'not recorded') {
      failure.value = sent.why;
      return;
    }
    fromStation.value = Object.fromEntries(
      Object.entries(sent.problems).map(([field, problem]) => [field.replace(/^(act\.)?joint\./, ''), problem]),
    );
    failure.value = `Not entered: ${Object.values(sent.problems).join('; ')}`;
    showFirst(Object.keys(fromStation.value));
  };

  const open = (text: string): void => {
    failure.value = undefined;
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch (cause) {
      failure.value = `This file is not JSON: ${cause instanceof Error ? cause.message : ''}. Choose a joint file.`;
      return;
    }
    const parsed = jointSchema.safeParse(json);
    if (!parsed.success) {
      failure.value = `This file is not a joint: ${problemsIn(parsed.error, json)
        .slice(0, 5)
        .map(({ field, found, allowed }) => `${field}: ${sentence(found, allowed)}`)
        .join(' ')}`;
      return;
    }
    before.value = draft.value;
    put(draftOf(parsed.data));
  };

  const shownProblems = Object.entries(problems);
  const whole = candidate.value;
  return (
    <form
      class="entering"
      aria-labelledby="entering-title"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <div class="joint-head">
        <h1 id="entering-title">{correcting === undefined ? 'New joint' : `Correct ${correcting}`}</h1>
        <p class="aside">What you type is kept on this device until it is entered.</p>
        <span class="grow" />
        <FileButtons
          joint={whole.ok ? whole.joint : undefined}
          open={open}
          refused={() => {
            tried.value = true;
            failure.value = `A joint file holds a whole joint; ${shownProblems.length} fields are still to be mended.`;
          }}
          startOver={() => {
            before.value = draft.value;
            touched.value = new Set();
            tried.value = false;
            put(emptyDraft);
          }}
        />
      </div>
      {before.value !== undefined && (
        <p class="notice row">
          The form was filled anew.
          <button
            type="button"
            class="plain"
            onClick={() => {
              put(before.value!);
              before.value = undefined;
            }}
          >
            Bring back what stood here
          </button>
        </p>
      )}
      <div class="entering-grid">
        <div class="entering-form">
          <IdentityFields entry={entry} correcting={correcting !== undefined} />
          <PartFields entry={entry} />
          <WeldingFields entry={entry} />
          <ProcedureFields entry={entry} methods={answer.value?.methods ?? []} />
        </div>
        <aside class="entering-answer sheet" aria-labelledby="answer-title">
          <h2 id="answer-title">Required preheat</h2>
          {answer.value === undefined ? (
            <Missing problems={metal.value.ok ? {} : metal.value.problems} />
          ) : (
            <RequirementView requirement={answer.value} />
          )}
          <p class="caution">{cautions[1]}</p>
        </aside>
      </div>
      {preview.value !== undefined && (
        <div class="sheet">
          <h2>Where the probes sit</h2>
          <Section joint={preview.value} />
        </div>
      )}
      <ProbeFields entry={entry} />
      <section class="sheet finish">
        {correcting !== undefined && (
          <TextArea
            label="Why it is corrected"
            value={reason.value}
            onValue={(value) => {
              reason.value = value;
            }}
          />
        )}
        {tried.value && shownProblems.length > 0 && (
          <div class="notice loud" role="alert">
            <strong>
              {shownProblems.length === 1 ? 'One field is' : `${shownProblems.length} fields are`} still to be mended:
            </strong>
            <ul class="plain-list">
              {shownProblems.slice(0, 12).map(([field, problem]) => (
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
        {failure.value !== undefined && (
          <p class="notice loud" role="alert">
            {failure.value}
          </p>
        )}
        <button type="submit" class="act large" disabled={sending.value}>
          {sending.value ? 'Sending' : correcting === undefined ? 'Enter the joint' : 'Record the correction'}
        </button>
      </section>
    </form>
  );
}

function Missing({ problems }: { readonly problems: Problems }) {
  return (
    <>
      <p class="minimum">
        <span class="minimum-figure">Not known</span>
        <span class="minimum-by">Still needed</span>
      </p>
      <ul class="plain-list">
        {Object.entries(problems)
          .slice(0, 8)
          .map(([field, problem]) => (
            <li key={field}>
              <strong>{fieldWords(field)}.</strong> {problem}
            </li>
          ))}
      </ul>
    </>
  );
}

/** "parts.0.thicknessMillimetres" as a person would say it: "Part 1, thickness". */
export const fieldWords = (path: string): string => {
  const words = path
    .split('.')
    .map((step) =>
      /^\d+$/.test(step)
        ? String(Number(step) + 1)
        : step
            .replace(/(Celsius|Millimetres|Kelvin|Minutes)$/, '')
            .replace(/([a-z])([A-Z])/g, '$1 $2')
            .toLowerCase(),
    )
    .join(' ')
    .replace(
      /\b(part|probe|analyse)s (\d+)/g,
      (_, noun: string, number: string) => `${noun === 'analyse' ? 'analysis' : noun} ${number},`,
    )
    .replace(/\bpercent (\w+)$/, (_, element: string) => element.charAt(0).toUpperCase() + element.slice(1))
    .replace(/,$/, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** Brings the first field with a problem into sight and puts the keyboard there. */
const showFirst = (fields: readonly string[]): void => {
  requestAnimationFrame(() => {
    for (const field of fields) {
      const found = document.querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"]`);
      if (found !== null) {
        found.scrollIntoView({ block: 'center' });
        found.focus({ preventScroll: true });
        return;
      }
    }
  });
};
