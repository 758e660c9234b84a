/** The answer: verdict beside verdict, moments beside moments, findings that would go or come, and what it took for granted. */
import type { Finding } from '../../../server/judgement/assessment.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { SupposedAnswer } from '../../../server/supposing/answer.ts';
import {
  changeText,
  momentRows,
  notTheRecord,
  outcomeText,
  placeText,
  remarkText,
  stoodText,
  supposedText,
} from '../../../server/wording/supposing.ts';
import { bound } from '../../format/bound.ts';
import { dayClockText } from '../../format/time.ts';

export function Answered({ answer, units }: { readonly answer: SupposedAnswer; readonly units: UnitSystem }) {
  const { supposition, gone, come, unsure, places = [], remarks, verdicts } = answer;
  const stood = stoodText(answer.stood, dayClockText);
  const isNothing = verdicts.length === 1 && gone.length + come.length + unsure.length === 0;
  return (
    <section class="sheet supposed stack" aria-labelledby="supposed-title">
      <div class="sheet-head">
        <h2 id="supposed-title">{bound(supposedText(supposition, units))}</h2>
        <span class="tag">{notTheRecord}</span>
      </div>
      {stood !== undefined && <p class="notice">{stood}</p>}
      <p class="outcome" role="status">
        {outcomeText(answer)}
      </p>
      <div class="scroll-x">
        <table>
          <thead>
            <tr>
              <th scope="col">Moment</th>
              <th scope="col">As it was</th>
              <th scope="col">Would have been</th>
            </tr>
          </thead>
          <tbody>
            {momentRows(answer, dayClockText).map(([what, is, would]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{is}</td>
                <td>{would}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Changes title="Findings that would go" of={gone} units={units} />
      <Changes title="Findings that would come" of={come} units={units} />
      <Changes title="Cannot be known" of={unsure} units={units} />
      {isNothing && <p>No finding would go or come.</p>}
      <Lines
        title="Where each place would have been when the pass began"
        lines={places.map((each) => placeText(each, units))}
      />
      <Lines title="What this takes for granted" lines={remarks.map(remarkText)} />
      <button type="button" class="plain no-print" onClick={() => print()}>
        Print this page
      </button>
    </section>
  );
}

const Changes = (props: { readonly title: string; readonly of: readonly Finding[]; readonly units: UnitSystem }) => (
  <Lines title={props.title} lines={props.of.map((each) => changeText(each, props.units))} />
);

const Lines = ({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) =>
  lines.length === 0 ? null : (
    <div>
      <h3>{title}</h3>
      <ul class="plain-list">
        {lines.map((line) => (
          <li key={line}>{bound(line)}</li>
        ))}
      </ul>
    </div>
  );
