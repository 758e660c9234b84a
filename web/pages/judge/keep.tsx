/** What was judged becomes a record of this station, if somebody wants it: a closed joint of its own, marked as imported. */
import { useSignal } from '@preact/signals';
import type { Assessment } from '../../../server/judgement/assessment.ts';
import { verdictHeadline } from '../../../server/wording/words.ts';
import { TextField } from '../../parts/field.tsx';
import { forWhom, nobodyYet, person } from '../../state/person.ts';
import { jointAddress } from '../../state/route.ts';
import { Deviations } from './deviations.tsx';
import { decisionActs, joint, keep, keeping } from './logs-draft.ts';

export function Keep({ assessment, zone }: { readonly assessment: Assessment; readonly zone: string }) {
  const now = keeping.value;
  const typed = useSignal<string | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const id = typed.value ?? nameOf(joint.value);
  const against = forWhom('import');
  return (
    <section class="sheet" aria-labelledby="keep">
      <h2 id="keep">Keep it as a record</h2>
      {now.kind === 'kept' ? (
        <p role="status">
          Kept as joint <strong>{now.joint}</strong>, imported and closed: {verdictHeadline(now.verdict)}{' '}
          <a class="button act" href={jointAddress(now.joint)}>
            Open it
          </a>
        </p>
      ) : (
        <>
          <p class="aside">
            It becomes a joint of its own among the others, marked as imported and closed at its last reading or act.
            What was not entered by then is told as missing. The files stay with you: the record holds their names and
            SHA-256, how they were read and what was passed over.
          </p>
          <TextField
            label="Name of the joint in the record: small letters, digits and hyphens"
            value={id}
            onValue={(value) => {
              typed.value = value;
            }}
          />
          <Deviations findings={assessment.findings} units={assessment.requirement.units} zone={zone} />
          <button
            type="button"
            class="act"
            disabled={now.kind === 'busy' || against !== undefined}
            onClick={() => {
              const acts = decisionActs();
              const missing =
                acts === undefined ? 'Give the reason for each decision: it stands in the record.' : undefined;
              problem.value = person.value === undefined ? nobodyYet() : missing;
              if (person.value !== undefined && acts !== undefined) void keep(id.trim(), acts);
            }}
          >
            {now.kind === 'busy' ? 'It is being kept' : 'Keep as a record'}
          </button>
          {against !== undefined && <p class="hint">Keeping is {against}.</p>}
          {problem.value !== undefined && <p class="problem">{problem.value}</p>}
          {now.kind === 'refused' && (
            <p class="problem" role="alert">
              Not kept. {now.why}
            </p>
          )}
        </>
      )}
    </section>
  );
}

/** A joint of this station has its name already. */
const nameOf = (chosen: { readonly value: unknown; readonly taken: boolean } | undefined): string => {
  const id = (chosen?.value as { id?: unknown } | undefined)?.id;
  if (typeof id !== 'string') return '';
  return chosen?.taken === true ? `${id}-log` : id;
};
