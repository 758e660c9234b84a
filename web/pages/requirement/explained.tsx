/** The whole answer to "how hot, and why?": the minimum, every method on one axis, the working, what if, and what stands beside it. */
import { useMemo } from 'preact/hooks';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Acceptance, MethodAnswer } from '../../../server/metallurgy/answer.ts';
import { explain } from '../../../server/metallurgy/explanation.ts';
import { sharedByParts } from '../../../server/metallurgy/shared-by-parts.ts';
import { adviceOn } from '../../../server/placing/check.ts';
import { suggestionFor } from '../../../server/placing/suggestion.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { begun, listText } from '../../../server/wording/list.ts';
import { adviceText, measuringRules, usualPlacesText } from '../../../server/wording/placing.ts';
import { inOrderOfStanding } from '../../../server/wording/requirement.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import { RequirementHead, RequirementWorking } from '../../parts/requirement.tsx';
import { Section } from '../../parts/section/section.tsx';
import { Axis } from './axis.tsx';
import { AfterView, CoolingView, UpwardView } from './beside.tsx';
import { PlanView } from './plan.tsx';
import { temperatureScale } from './scale.ts';
import { WhatIfView } from './what-if.tsx';

export function Explained({
  joint,
  acceptances,
}: {
  readonly joint: Joint;
  readonly acceptances: readonly Acceptance[];
}) {
  const explanation = useMemo(() => explain(joint, acceptances), [joint, acceptances]);
  const { requirement } = explanation;
  const silent = silentOf(requirement.methods);
  return (
    <div class="explained">
      <section class="sheet requirement" aria-labelledby="answer-heading">
        <h2 id="answer-heading" class="unseen">
          Required preheat
        </h2>
        <RequirementHead requirement={requirement} />
        <p class="caution">{cautions[1]}</p>
      </section>
      <section class="sheet" aria-labelledby="methods-heading">
        <div class="sheet-head">
          <h2 id="methods-heading">Every method, side by side</h2>
        </div>
        <Axis scale={temperatureScale(joint, explanation)} unit={degreeUnit(unitsOf(joint))} />
        {silent.length > 0 && (
          <>
            <h3>No temperature from</h3>
            <ul class="plain-list">
              {silent.map(({ key, title, parts, words }) => (
                <li key={key}>
                  <strong>
                    {title}, {parts}:
                  </strong>{' '}
                  {words}
                </li>
              ))}
            </ul>
          </>
        )}
        <RequirementWorking requirement={requirement} />
      </section>
      <WhatIfView joint={joint} acceptances={acceptances} />
      <PlanView joint={joint} minimumCelsius={requirement.governing.preheatMinimumCelsius} />
      <div class="second">
        <CoolingView joint={joint} explanation={explanation} />
        <UpwardView joint={joint} explanation={explanation} />
      </div>
      <div class="second">
        <AfterView joint={joint} explanation={explanation} />
        <section class="sheet" aria-labelledby="where-heading">
          <div class="sheet-head">
            <h2 id="where-heading">Where to measure</h2>
          </div>
          <Section joint={joint} />
          <Placing joint={joint} />
        </section>
      </div>
    </div>
  );
}

/** The published rules, the probes beside them, and what is usual. Advice: what can be judged is the judge's to say. */
function Placing({ joint }: { readonly joint: Joint }) {
  const units = unitsOf(joint);
  return (
    <>
      <ul class="plain-list">
        {measuringRules(joint).map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ul>
      <h3>The probes as placed</h3>
      <ul class="plain-list">
        {adviceOn(joint).map((advice) => (
          <li key={adviceText(advice, units)}>{adviceText(advice, units)}</li>
        ))}
      </ul>
      <p class="aside">{usualPlacesText(suggestionFor(joint), units)}</p>
    </>
  );
}

/** Methods without a temperature, each with its reason or with what it shows instead; never silently absent. */
const silentOf = (methods: readonly MethodAnswer[]) =>
  sharedByParts(
    inOrderOfStanding(methods).filter(({ computedCelsius }) => computedCelsius === undefined),
    ({ id, indication, reason, standing }) => ({ id, words: `${begun(indication ?? reason)}. ${begun(standing)}.` }),
  ).map(({ one: { title }, told: { id, words }, parts }) => ({
    key: `${id} ${words}`,
    title,
    words,
    parts: listText(parts),
  }));
