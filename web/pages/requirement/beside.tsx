/** What stands beside the required preheat: cooling, limits upward, martensite start, and what comes after welding. */
import { unitsOf } from '../../../server/measure/units.ts';
import { citationText } from '../../../server/metallurgy/citation.ts';
import type { CoolingOfPart } from '../../../server/metallurgy/cooling.ts';
import type { Explanation } from '../../../server/metallurgy/explanation.ts';
import { degrees } from '../../../server/metallurgy/number.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import {
  coolingText,
  heatInputWindowText,
  interpassSuggestionText,
  martensiteText,
  residualText,
  waitingText,
} from '../../../server/wording/explanation.ts';
import { heatInputFigureText } from '../../../server/wording/length.ts';
import { begun, listText } from '../../../server/wording/list.ts';

interface Props {
  readonly joint: Joint;
  readonly explanation: Explanation;
}

export function CoolingView({ joint, explanation: { cooling } }: Props) {
  return (
    <section class="sheet" aria-labelledby="cooling-heading">
      <div class="sheet-head">
        <h2 id="cooling-heading">Cooling from 800 to 500 °C</h2>
      </div>
      {cooling.parts.map((part) => (
        <PartCooling key={part.part} joint={joint} part={part} />
      ))}
      {cooling.arcEnergy !== undefined && (
        <p class="aside">
          Arc energy without the efficiency of the process:{' '}
          {heatInputFigureText(cooling.arcEnergy.value, unitsOf(joint))} ({cooling.arcEnergy.from}).
        </p>
      )}
      <p class="aside">
        Source: {cooling.source} ({cooling.status}); shape factors {cooling.shapeStatus}. A window is judged only where
        the procedure states one.
      </p>
    </section>
  );
}

function PartCooling({ joint, part }: { readonly joint: Joint; readonly part: CoolingOfPart }) {
  const units = unitsOf(joint);
  const withWindow = part.rows.some(({ allowed }) => allowed !== undefined);
  return (
    <div class="stack tight">
      <h3>{part.part}</h3>
      {part.applicable === 'no' && <p class="asked">{begun(part.reason)}</p>}
      {(part.applicable === 'no' ? [] : part.missing).map((each) => (
        <p class="asked" key={each}>
          Needed: {each}
        </p>
      ))}
      {part.flags.map((each) => (
        <p class="asked" key={each}>
          {begun(each)}
        </p>
      ))}
      {part.rows.length > 0 && (
        <div class="scroll">
          <table>
            <thead>
              <tr>
                <th scope="col">At</th>
                <th scope="col">Cooling time</th>
                {withWindow && <th scope="col">Heat input that keeps the window</th>}
              </tr>
            </thead>
            <tbody>
              {part.rows.map((row) => (
                <tr key={row.celsius}>
                  <th scope="row">
                    {degrees(row.celsius, units)}
                    {row.at !== 'between' && <span class="place">{row.at}</span>}
                  </th>
                  <td>{coolingText(row, units)}</td>
                  {withWindow && <td>{row.allowed === undefined ? '' : heatInputWindowText(row.allowed, units)}</td>}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}

export function UpwardView({ joint, explanation: { upperLimits, martensiteStart } }: Props) {
  const units = unitsOf(joint);
  return (
    <section class="sheet" aria-labelledby="upward-heading">
      <div class="sheet-head">
        <h2 id="upward-heading">Limits upward</h2>
      </div>
      <p>
        {upperLimits.statedCelsius === undefined
          ? 'The procedure states no maximum interpass temperature. What follows is published or practised; nothing of it is applied by itself.'
          : `The procedure states ${degrees(upperLimits.statedCelsius, units)}; that is what is judged. Beside it, published or practised:`}
      </p>
      {upperLimits.parts.map((part) => (
        <div key={part.part} class="stack tight">
          <h3>{part.part}</h3>
          <ul class="plain-list">
            {part.suggestions.map((each) => (
              <li key={`${each.material} ${each.source}`}>{interpassSuggestionText(each, units)}</li>
            ))}
          </ul>
          {part.missing.length > 0 && <p class="asked">Needed: {listText(part.missing)}</p>}
          {part.notes.map((note) => (
            <p class="asked" key={note}>
              {begun(note)}
            </p>
          ))}
        </div>
      ))}
      <h3>Martensite start, an indication</h3>
      <ul class="plain-list">
        {martensiteStart.map((each) => (
          <li key={`${each.part} ${each.name}`}>
            <strong>
              {each.part}, {each.name}:
            </strong>{' '}
            {martensiteText(each, units)}
            <span class="formula">{each.formula}</span>
          </li>
        ))}
      </ul>
      <p class="aside">Formulas {martensiteStart[0]?.status ?? 'from memory'}; they compare and never govern.</p>
    </section>
  );
}

export function AfterView({ joint, explanation: { afterWelding } }: Props) {
  const units = unitsOf(joint);
  const { postHeating, published, waiting } = afterWelding;
  return (
    <section class="sheet" aria-labelledby="after-heading">
      <div class="sheet-head">
        <h2 id="after-heading">After welding</h2>
      </div>
      <h3>Post-heating</h3>
      {postHeating === undefined ? (
        <p>The procedure asks for none.</p>
      ) : (
        <>
          <p>
            The procedure asks for {degrees(postHeating.celsius, units)} over {postHeating.hours} h.
            {postHeating.residual !== undefined &&
              ` In a plate as thick as the thickest part: ${residualText(postHeating.residual)}.`}
          </p>
          {[...new Set([...postHeating.notes, ...(postHeating.residual?.flags ?? [])])].map((note) => (
            <p class="asked" key={note}>
              {begun(note)}
            </p>
          ))}
        </>
      )}
      <details class="working">
        <summary>What is published on post-heating</summary>
        <ul class="plain-list">
          {published.map((each) => (
            <li key={each.words}>
              <strong>{begun(each.for)}:</strong> {each.words} <span class="aside">({citationText(each)})</span>
            </li>
          ))}
        </ul>
      </details>
      <h3>Waiting before testing</h3>
      <p>{waitingText(afterWelding, units)}</p>
      {waiting.kind === 'waits' && (
        <>
          {waiting.notes.map((note) => (
            <p class="asked" key={note}>
              {begun(note)}
            </p>
          ))}
          {waiting.residual !== undefined && (
            <p>
              At 20 °C that leaves {residualText(waiting.residual)}. Diffusion in steel at room temperature is known to
              within two decades only, so it is a range and never one number.
            </p>
          )}
          <p class="aside">Source: {citationText(waiting)}</p>
        </>
      )}
      {waiting.kind === 'not chosen' && (
        <ul class="plain-list">
          {waiting.choices.map((choice) => (
            <li key={choice.edition}>
              <strong>{choice.edition}:</strong> {choice.words}
            </li>
          ))}
        </ul>
      )}
      <p class="aside">{begun(afterWelding.residualSource)}</p>
    </section>
  );
}
