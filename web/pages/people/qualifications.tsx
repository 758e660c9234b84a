/** Qualifications of one person as the certificates say: entered, confirmed, withdrawn. */
import { useSignal } from '@preact/signals';
import { monthsBetweenConfirmations } from '../../../server/weld/qualification.ts';
import type { PersonView, QualificationKept } from '../../../server/weld/sign-on.ts';
import { processes as all, type processes } from '../../../server/weld/welding.ts';
import { qualificationText } from '../../../server/wording/qualification.ts';
import { TextField } from '../../parts/field.tsx';
import type { PeopleDesk } from './people-desk.ts';

type Process = (typeof processes)[number];

export function Qualifications({ person, desk }: { readonly person: PersonView; readonly desk: PeopleDesk }) {
  const path = `/api/people/${person.id}/qualifications`;
  if (!person.roles.includes('welder') && person.qualifications.length === 0) return null;
  return (
    <details>
      <summary>
        Qualifications of {person.name}:{' '}
        {person.qualifications.length === 0 ? 'none entered' : person.qualifications.length}
      </summary>
      <div class="later">
        <ul class="plain-list">
          {person.qualifications.map((each) => (
            <li key={each.id} class="row">
              <span class="grow">{qualificationText(each)}</span>
              {each.confirmEveryMonths !== undefined && <Confirm path={path} kept={each} desk={desk} />}
              <button
                type="button"
                class="plain"
                onClick={() => void desk.send('DELETE', `${path}/${each.id}`, {}, `${each.certificate} is withdrawn.`)}
              >
                Withdraw {each.certificate}
              </button>
            </li>
          ))}
        </ul>
        <Enter path={path} desk={desk} />
      </div>
    </details>
  );
}

/** Confirmed today: the day of this device, as the one who confirms would write it. */
function Confirm({
  path,
  kept,
  desk,
}: {
  readonly path: string;
  readonly kept: QualificationKept;
  readonly desk: PeopleDesk;
}) {
  return (
    <button
      type="button"
      onClick={() => {
        const { id, ...qualification } = kept;
        const today = new Date();
        const day = [today.getFullYear(), today.getMonth() + 1, today.getDate()]
          .map((each) => `${each}`.padStart(2, '0'))
          .join('-');
        void desk.send(
          'PUT',
          `${path}/${id}`,
          { ...qualification, confirmedOn: day },
          `${kept.certificate} is confirmed.`,
        );
      }}
    >
      Confirm {kept.certificate} today
    </button>
  );
}

const fields = [
  { key: 'standard', label: 'Standard', hint: 'As ISO 9606-1 or ASME BPVC Section IX' },
  { key: 'certificate', label: 'Certificate' },
  { key: 'range', label: 'Range, as the certificate says it' },
  { key: 'validUntil', label: 'Valid until', hint: 'As 2027-03-31', optional: true },
  { key: 'confirmedOn', label: 'Last confirmed', hint: 'As 2026-10-01', optional: true },
  {
    key: 'confirmEveryMonths',
    label: 'Months between confirmations',
    hint: `${monthsBetweenConfirmations} by ISO 9606-1 and ASME Section IX; empty where none are asked for`,
    optional: true,
  },
] as const;

function Enter({ path, desk }: { readonly path: string; readonly desk: PeopleDesk }) {
  const draft = useSignal<Readonly<Record<string, string>>>({});
  const chosen = useSignal<readonly Process[]>([]);
  const send = async (): Promise<void> => {
    const filled = Object.entries(draft.value)
      .map(([key, text]) => [key, text.trim()] as const)
      .filter(([, text]) => text !== '')
      .map(([key, text]) => [key, key === 'confirmEveryMonths' ? Number(text) : text]);
    const body = { ...Object.fromEntries(filled), processes: chosen.value };
    if (!(await desk.send('POST', path, body, 'The qualification is entered.'))) return;
    draft.value = {};
    chosen.value = [];
  };
  return (
    <form
      class="stack"
      aria-label="Enter a qualification"
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <div class="fields">
        {fields.map(({ key, ...words }) => (
          <TextField
            key={key}
            {...words}
            value={draft.value[key] ?? ''}
            onValue={(value) => {
              draft.value = { ...draft.value, [key]: value };
            }}
          />
        ))}
      </div>
      <fieldset>
        <legend>Processes (ISO 4063)</legend>
        <div class="choices">
          {all.map((process) => (
            <label key={process} class={chosen.value.includes(process) ? 'chosen' : ''}>
              <input
                type="checkbox"
                checked={chosen.value.includes(process)}
                onChange={(event) => {
                  const others = chosen.value.filter((each) => each !== process);
                  chosen.value = event.currentTarget.checked ? [...others, process] : others;
                }}
              />
              {process}
            </label>
          ))}
        </div>
      </fieldset>
      <div class="row">
        <button type="submit">Enter the qualification</button>
      </div>
    </form>
  );
}
