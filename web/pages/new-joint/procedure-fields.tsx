/** The qualified procedure and the code: what they state is judged; what they do not state stays empty and is not made up. */
import type { MethodAnswer } from '../../../server/metallurgy/answer.ts';
import { TextField } from '../../parts/field.tsx';
import { AfterFields } from './after-fields.tsx';
import { Binding } from './binding-fields.tsx';
import { ChartFields } from './chart-fields.tsx';
import type { Entry } from './entry.tsx';
import { NumberField } from './number-field.tsx';

export function ProcedureFields({
  entry,
  methods,
}: {
  readonly entry: Entry;
  readonly methods: readonly MethodAnswer[];
}) {
  const { codeFloor, bindingMethods } = entry.draft;
  const governors = [
    ...new Map(
      methods.filter((method) => method.role === 'may govern').map((method) => [method.id, method.title]),
    ).entries(),
  ];
  return (
    <fieldset class="group">
      <legend>Procedure and code</legend>
      <Binding entry={entry} />
      <label class="tick">
        <input
          type="checkbox"
          checked={codeFloor.stated}
          onChange={(event) => entry.change({ codeFloor: { ...codeFloor, stated: event.currentTarget.checked } })}
        />
        The code of construction sets a floor of its own
      </label>
      {codeFloor.stated && (
        <div class="fields">
          <NumberField
            entry={entry}
            label="Floor"
            kind="temperature"
            field="codeFloor.preheatMinimumCelsius"
            value={codeFloor.celsius}
            onValue={(celsius) => entry.change({ codeFloor: { ...codeFloor, celsius } })}
          />
          <TextField
            label="Where it stands"
            field="codeFloor.source"
            value={codeFloor.source}
            problem={entry.problem('codeFloor.source')}
            onValue={(source) => {
              entry.touch('codeFloor.source');
              entry.change({ codeFloor: { ...codeFloor, source } });
            }}
          />
        </div>
      )}
      {governors.map(([id, title]) => (
        <label class="tick" key={id}>
          <input
            type="checkbox"
            checked={bindingMethods.includes(id)}
            onChange={(event) =>
              entry.change({
                bindingMethods: event.currentTarget.checked
                  ? [...bindingMethods, id]
                  : bindingMethods.filter((each) => each !== id),
              })
            }
          />
          The job declares the calculation by {title} binding
        </label>
      ))}
      <ChartFields entry={entry} />
      <AfterFields entry={entry} />
    </fieldset>
  );
}
