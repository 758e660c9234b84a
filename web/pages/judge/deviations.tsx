/** Before a job is kept, and closed with it: what of its deviations is decided, by whoever keeps it. What is left open stays open. */
import type { Finding } from '../../../server/judgement/assessment.ts';
import { deviationsOf } from '../../../server/judgement/people/deviations.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { findingSpan, findingText } from '../../../server/wording/finding.ts';
import { ChoiceField, TextArea } from '../../parts/field.tsx';
import { decisions } from '../joint/decision.ts';
import { type Decided, decided } from './logs-draft.ts';

interface Props {
  readonly findings: readonly Finding[];
  readonly units: UnitSystem;
  readonly zone: string;
}

export function Deviations({ findings, units, zone }: Props) {
  const { open } = deviationsOf(findings);
  if (open.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="deviations">
      <h3 id="deviations">
        {open.length === 1 ? 'One deviation needs an answer' : `${open.length} deviations need an answer`}
      </h3>
      <p class="aside">
        Decide before it is kept, in your name: nothing can be entered afterwards. What is left open stays open. A
        decision changes no measurement and no verdict.
      </p>
      {open.map((finding) => (
        <OneDeviation key={finding.key} finding={finding} units={units} zone={zone} />
      ))}
    </section>
  );
}

function OneDeviation({ finding, units, zone }: Omit<Props, 'findings'> & { readonly finding: Finding }) {
  const said = decided.value[finding.key] ?? { decision: 'open', reason: '' };
  const say = (change: Partial<Decided>): void => {
    decided.value = { ...decided.value, [finding.key]: { ...said, ...change } };
  };
  return (
    <div>
      <ChoiceField
        label={`${findingText(finding, units).what}, ${findingSpan(finding, zone)}`}
        value={said.decision}
        choices={[
          { value: 'open', text: 'Leave open' },
          ...decisions.map(({ decision, text }) => ({ value: decision, text })),
        ]}
        onValue={(decision) => say({ decision })}
      />
      {said.decision !== 'open' && (
        <TextArea label="Reason" value={said.reason} onValue={(reason) => say({ reason })} />
      )}
    </div>
  );
}
