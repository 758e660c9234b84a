/** What changed from one revision to another, value by value. */
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { ProcedureRevision } from '../../../server/weld/procedure-revision.ts';
import { changedLines } from '../../../server/wording/procedure.ts';

interface Props {
  readonly before: ProcedureRevision;
  readonly after: ProcedureRevision;
  readonly units: UnitSystem;
}

export function Changes({ before, after, units }: Props) {
  const lines = changedLines(before, after, units);
  if (lines.length === 0) return <p>No value differs.</p>;
  return (
    <div class="scroll">
      <table class="changes">
        <caption>
          Revision {before.procedure.revision} to {after.procedure.revision}
        </caption>
        <thead>
          <tr>
            <th scope="col">Value</th>
            <th scope="col">Revision {before.procedure.revision}</th>
            <th scope="col">Revision {after.procedure.revision}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.field}>
              <th scope="row">{line.name}</th>
              <td>{line.before ?? 'not stated'}</td>
              <td>{line.after ?? 'not stated'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
