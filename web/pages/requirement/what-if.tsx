/**
 * What if: four things moved by slider or by number, and what the joint would ask for then. Nothing here changes
 * the joint; it is said so as long as anything is supposed.
 */
import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import { readNumber } from '../../../server/measure/number-text.ts';
import { type UnitSystem, unitsOf } from '../../../server/measure/units.ts';
import type { Acceptance } from '../../../server/metallurgy/answer.ts';
import { plain } from '../../../server/metallurgy/number.ts';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import { sharedByParts } from '../../../server/metallurgy/shared-by-parts.ts';
import {
  type Sensitivity,
  sensitivities,
  supposing,
  type Variable,
  variables,
  whatIf,
  workingValue,
} from '../../../server/metallurgy/what-if.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { sensitivityText } from '../../../server/wording/explanation.ts';
import { begun, listText } from '../../../server/wording/list.ts';
import { governingText, minimumText } from '../../../server/wording/requirement.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import { ChoiceField, entryOf } from '../../parts/field.tsx';
import { CurveView } from './curve.tsx';
import { curveOf, shownVariable, variableText } from './curve-model.ts';

type Supposition = Readonly<Partial<Record<Variable, number>>>;
const reach: Readonly<Record<Exclude<Variable, 'restraint'>, readonly [low: number, high: number, step: number]>> = {
  'heat input': [0.3, 4.5, 0.1],
  hydrogen: [0.5, 22, 0.5],
  thickness: [5, 150, 1],
};

export function WhatIfView({
  joint,
  acceptances,
}: {
  readonly joint: Joint;
  readonly acceptances: readonly Acceptance[];
}) {
  const units = unitsOf(joint);
  const supposed = useSignal<Supposition>({});
  const drawn = useSignal<Variable>('thickness');
  const changed = Object.keys(supposed.value).length > 0;
  const other = useMemo(
    () =>
      variables.reduce<Joint>((made, variable) => {
        const value = supposed.value[variable];
        return value === undefined ? made : supposing(made, variable, value);
      }, joint),
    [joint, supposed.value],
  );
  const answer = useMemo(() => requirement(other, acceptances), [other, acceptances]);
  const curve = useMemo(
    () => curveOf(whatIf(other, drawn.value, acceptances), units),
    [other, drawn.value, acceptances],
  );
  const slopes = useMemo(
    () => sensitivities(other, acceptances).filter(({ role, kelvin }) => role !== 'comparison only' && kelvin !== 0),
    [other, acceptances],
  );
  const set = (variable: Variable, value: number | undefined): void => {
    const { [variable]: _, ...rest } = supposed.value;
    supposed.value = value === undefined ? rest : { ...rest, [variable]: value };
    if (value !== undefined) drawn.value = variable;
  };
  return (
    <section class="sheet what-if" aria-labelledby="what-if-heading">
      <div class="sheet-head">
        <h2 id="what-if-heading">What if</h2>
        <p class="aside">Nothing here changes the joint.</p>
      </div>
      <div class="what-if-grid">
        <div class="sliders">
          {(['heat input', 'hydrogen', 'thickness'] as const).map((variable) => (
            <Slider
              key={variable}
              variable={variable}
              joint={joint}
              value={supposed.value[variable]}
              set={(value) => set(variable, value)}
            />
          ))}
          <ChoiceField
            label="Restraint"
            value={
              supposed.value.restraint === undefined
                ? 'as entered'
                : variableText('restraint', supposed.value.restraint, units)
            }
            choices={['as entered', 'low', 'medium', 'high'].map((each) => ({ value: each, text: begun(each) }))}
            onValue={(value) =>
              set('restraint', value === 'as entered' ? undefined : ['low', 'medium', 'high'].indexOf(value))
            }
          />
          <p class="what-if-answer" role="status">
            <strong>{minimumText(answer)}</strong> {governingText(answer.governing.kind)}
            {changed && ', as supposed'}
          </p>
          {changed && (
            <button
              type="button"
              class="plain"
              onClick={() => {
                supposed.value = {};
              }}
            >
              Back to the joint as entered
            </button>
          )}
        </div>
        <div>
          <ChoiceField
            label="Drawn over"
            choices={variables.map((each) => ({ value: each, text: begun(each) }))}
            {...entryOf(drawn)}
          />
          <CurveView
            curve={curve}
            xName={
              drawn.value === 'restraint' ? 'restraint' : `${drawn.value}, ${shownVariable(drawn.value, units).unit}`
            }
            unit={degreeUnit(units)}
          />
        </div>
      </div>
      <h3>What matters most here</h3>
      {slopes.length === 0 ? (
        <p class="empty">
          No method that may govern gives a number that moves here: a table stands still within its band.
        </p>
      ) : (
        <ul class="plain-list">
          {shared(slopes, units).map(({ words, title, parts }) => (
            <li key={`${words} ${title}`}>
              <strong>{words}</strong> ({title}, {parts})
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Parts for which a method answers alike share a line. */
const shared = (slopes: readonly Sensitivity[], units: UnitSystem) =>
  sharedByParts(slopes, (each) => ({ words: sensitivityText(each, units), title: each.title })).map(
    ({ told, parts }) => ({
      ...told,
      parts: listText(parts),
    }),
  );

function Slider({
  variable,
  joint,
  value,
  set,
}: {
  readonly variable: Exclude<Variable, 'restraint'>;
  readonly joint: Joint;
  readonly value: number | undefined;
  readonly set: (value: number | undefined) => void;
}) {
  const typed = useSignal<string | undefined>(undefined);
  const { shown, unit } = shownVariable(variable, unitsOf(joint));
  const [low, high, step] = reach[variable];
  const now = value ?? workingValue(joint, variable);
  const id = `suppose-${variable.replace(' ', '-')}`;
  const factor = shown(1);
  return (
    <div class="slider">
      <label for={id}>
        {begun(variable)}
        {variable === 'thickness' && joint.parts.length > 1 && <span class="optional"> of every part</span>}
      </label>
      <input
        type="range"
        aria-label={`${begun(variable)}, slider`}
        min={low}
        max={high}
        step={step}
        value={now ?? low}
        onInput={(event) => {
          typed.value = undefined;
          set(Number(event.currentTarget.value));
        }}
      />
      <span class="entry with-unit">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={typed.value ?? (now === undefined ? '' : plain(shown(now), 3))}
          onInput={(event) => {
            const text = event.currentTarget.value;
            typed.value = text;
            const read = readNumber(text);
            if (read.kind === 'number' && read.value > 0) set(read.value / factor);
          }}
          onBlur={() => {
            typed.value = undefined;
          }}
        />
        <span class="unit">{unit}</span>
      </span>
      {now === undefined && <span class="hint">not stated for this joint</span>}
    </div>
  );
}
