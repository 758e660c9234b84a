/** One line for words; what narrows further is folded away until it is used. */
import { findingKinds, verdicts } from '../../../server/past/kinds.ts';
import { findingName } from '../../../server/past/words.ts';
import { sourceKinds } from '../../../server/weld/entry.ts';
import { roles } from '../../../server/weld/person.ts';
import { begun } from '../../../server/wording/list.ts';
import { sourceMark, verdictHeadline } from '../../../server/wording/words.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { anyFilled, More } from '../../parts/more.tsx';
import { isNarrowed, nothing, problems, type Question, question } from './question.ts';

type Field = keyof Question;

const set = (field: Field) => (value: string) => {
  question.value = { ...question.value, [field]: value };
};

const problemOf = (field: Field): string | undefined => {
  const found = problems.value.find((each) => each.field === field);
  return found === undefined ? undefined : `Not understood; allowed: ${found.allowed}`;
};

export function QuestionForm() {
  const { words, ...others } = question.value;
  return (
    <search class="sheet">
      <form onSubmit={(event) => event.preventDefault()}>
        <TextField
          label="Words"
          hint="Joint, drawing, part, steel, heat number, procedure, person, consumable. A part of a word is enough."
          value={words}
          onValue={set('words')}
          problem={problemOf('words')}
          wide
        />
        <More
          title="Narrow down"
          about="days, verdict, finding, person, source"
          filled={anyFilled(...Object.values(others))}
        >
          <div class="fields">
            <Day field="from" label="Worked on from" />
            <Day field="to" label="until" />
            <Choice field="state" label="State" all="Open and closed" choices={states} />
            <Choice field="verdict" label="Verdict" all="Any verdict" choices={verdictChoices} />
            <Choice field="finding" label="Finding" all="With or without findings" choices={findingChoices} />
            <Choice field="source" label="Source" all="Any source" choices={sourceChoices} />
            <TextField label="Person" value={others.person} onValue={set('person')} problem={problemOf('person')} />
            <Choice field="role" label="Role" all="In any role" choices={roleChoices} />
            <TextField
              label="Repairs of joint"
              hint='Its id, or "any" for all repairs'
              value={others.repairOf}
              onValue={set('repairOf')}
              problem={problemOf('repairOf')}
            />
          </div>
        </More>
        {isNarrowed.value && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              question.value = nothing;
            }}
          >
            Ask for all again
          </button>
        )}
      </form>
    </search>
  );
}

function Day({ field, label }: { readonly field: 'from' | 'to'; readonly label: string }) {
  const problem = problemOf(field);
  return (
    <div class={`field${problem === undefined ? '' : ' wrong'}`}>
      <label for={`past-${field}`}>{label}</label>
      <input
        id={`past-${field}`}
        type="date"
        value={question.value[field]}
        onInput={(event) => set(field)(event.currentTarget.value)}
      />
      {problem !== undefined && <p class="problem">{problem}</p>}
    </div>
  );
}

interface ChoiceProps {
  readonly field: Field;
  readonly label: string;
  readonly all: string;
  readonly choices: readonly { readonly value: string; readonly text: string }[];
}

const Choice = ({ field, label, all, choices }: ChoiceProps) => (
  <SelectField
    label={label}
    value={question.value[field]}
    choices={[{ value: '', text: all }, ...choices]}
    onValue={set(field)}
    problem={problemOf(field)}
  />
);

const states = [
  { value: 'open', text: 'Open' },
  { value: 'closed', text: 'Closed' },
];
const verdictChoices = verdicts.map((value) => ({ value, text: verdictHeadline(value) }));
const findingChoices = findingKinds.map((value) => ({ value, text: findingName(value) }));
const sourceChoices = sourceKinds.map((kind) => ({
  value: kind,
  text: sourceMark({ kind }) ?? 'Measured',
}));
const roleChoices = roles.map((value) => ({ value, text: begun(value) }));
