/** How hot, by which rule, how sure: the governing minimum in large figures, all methods on one axis, the working. */
import type { MethodAnswer, Requirement, WorkingInput } from '../../server/metallurgy/answer.ts';
import { degrees } from '../../server/metallurgy/number.ts';
import { begun } from '../../server/wording/list.ts';
import { governingText, minimumText } from '../../server/wording/requirement.ts';
import { degreeUnit, shownDegrees } from '../../server/wording/temperature.ts';
import { numberText } from '../format/number.ts';

export function RequirementView({ requirement }: { readonly requirement: Requirement }) {
  return (
    <div class="requirement">
      <RequirementHead requirement={requirement} />
      <MethodAxis methods={requirement.methods} requirement={requirement} />
      <RequirementWorking requirement={requirement} />
    </div>
  );
}

export function RequirementHead({ requirement }: { readonly requirement: Requirement }) {
  const { governing, warnings } = requirement;
  return (
    <>
      <p class="minimum">
        <span class="minimum-figure">{minimumText(requirement)}</span>
        <span class="minimum-by">{begun(governingText(governing.kind))}</span>
      </p>
      <p>{governing.because}</p>
      {warnings.length > 0 && (
        <ul class="warnings">
          {warnings.map((warning) => (
            <li key={warning.message} class={warning.wantsAnswer ? 'asks' : ''}>
              {warning.wantsAnswer && <strong>Wants a named answer. </strong>}
              {warning.message}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

export function RequirementWorking({ requirement: { equivalents, methods } }: { readonly requirement: Requirement }) {
  return (
    <details class="working">
      <summary>Working of each method</summary>
      {methods.map((method) => (
        <MethodWorking key={`${method.id} ${method.part}`} method={method} />
      ))}
      <h4>Carbon equivalents</h4>
      <ul class="plain-list">
        {equivalents.map((equivalent) => (
          <li key={`${equivalent.id} ${equivalent.part}`}>
            <strong>
              {equivalent.id}, {equivalent.part}:{' '}
              {equivalent.value === undefined ? 'not known' : `${numberText(equivalent.value, 3)} %`}
            </strong>
            <span class="formula">{equivalent.formula}</span>
            {equivalent.missing.length > 0 && <span class="asked">needs {equivalent.missing.join(', ')}</span>}
            {equivalent.outOfRange.map((range) => (
              <span class="asked" key={range}>
                {range}
              </span>
            ))}
            <span class="aside">
              {equivalent.source} ({equivalent.status})
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Those that may govern or are a floor, on one scale of temperature; what only compares stands on the requirement page. */
function MethodAxis({
  methods,
  requirement,
}: {
  readonly methods: readonly MethodAnswer[];
  readonly requirement: Requirement;
}) {
  const { units } = requirement;
  const governing = requirement.governing.preheatMinimumCelsius;
  const numbers = methods.filter(
    ({ computedCelsius, role }) => computedCelsius !== undefined && role !== 'comparison only',
  );
  const compared = methods.filter(({ role }) => role === 'comparison only').length;
  if (numbers.length === 0) return null;
  const values = [
    ...numbers.map((method) => method.computedCelsius!),
    ...(governing === undefined ? [] : [governing]),
    0,
  ];
  const low = Math.min(...values);
  const high = Math.max(...values, 100) * 1.06;
  const at = (celsius: number): string => `${((celsius - low) / (high - low)) * 100}%`;
  return (
    <figure class="axis-figure">
      <figcaption>Methods, {degreeUnit(units)}</figcaption>
      <ul>
        {numbers.map((method) => (
          <li key={`${method.id} ${method.part}`}>
            <span class="axis-name">
              {method.title}, {method.part}
            </span>
            <span class="axis-bar">
              <span class={`axis-fill ${method.applicable}`} style={{ width: at(method.computedCelsius!) }} />
              {governing !== undefined && <span class="axis-limit" style={{ left: at(governing) }} />}
            </span>
            <span class="axis-number">
              {numberText(shownDegrees(method.computedCelsius! * 1000, units), 0)}
              {method.applicable === 'extended' && ' extended'}
              {method.role === 'code minimum' && ' floor'}
            </span>
          </li>
        ))}
      </ul>
      <p class="aside">
        {governing !== undefined && `The upright line is the value that is judged, ${degrees(governing, units)}. `}
        {compared > 0 && `${compared} more ${compared === 1 ? 'answer only compares' : 'answers only compare'}.`}
      </p>
    </figure>
  );
}

function MethodWorking({ method }: { readonly method: MethodAnswer }) {
  return (
    <section class="method">
      <h4>
        {method.title}, part {method.part}
      </h4>
      <p class="aside">
        {begun(method.standing)}. {method.edition}. Source: {method.source} ({method.status}).
      </p>
      {method.indication !== undefined && <p>{begun(method.indication)}</p>}
      {method.applicable !== 'yes' && (
        <p class="asked">
          {method.applicable === 'no' ? 'No number: ' : 'Outside its validated range: '}
          {method.reason}
        </p>
      )}
      {method.notes?.map((note) => (
        <p key={note}>{begun(note)}</p>
      ))}
      {method.flags.map((flag) => (
        <p class="asked" key={flag}>
          {begun(flag)}
        </p>
      ))}
      <p class="formula">{method.formula}</p>
      {method.terms.length > 0 && (
        <table class="terms">
          <tbody>
            {method.terms.map((term) => (
              <tr key={term.name}>
                <th scope="row">{term.name}</th>
                <td class="formula">{term.formula}</td>
                <td class="number">
                  {numberText(term.value, 1)} {term.unit}
                </td>
              </tr>
            ))}
            {method.computedCelsius !== undefined && (
              <tr class="sum">
                <th scope="row">{method.tabulated ? 'Table' : 'Result'}</th>
                <td>{method.noPreheatNeeded ? 'no preheat needed' : ''}</td>
                <td class="number">{numberText(method.computedCelsius, 1)} °C</td>
              </tr>
            )}
          </tbody>
        </table>
      )}
      {method.inputs.length > 0 && (
        <ul class="inputs">
          {method.inputs.map((input) => (
            <li key={input.name}>{inputText(input)}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

const inputText = ({ name, value, unit, from }: WorkingInput): string =>
  `${name} = ${numberText(value, 3)} ${unit}, from ${from}`;
