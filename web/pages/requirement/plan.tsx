/** A heating planned before it begins: rate, set point and air typed, and for each part when it is warm through. */
import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { lengthText } from '../../../server/wording/length.ts';
import { begun, listText } from '../../../server/wording/list.ts';
import { bound } from '../../format/bound.ts';
import { TextField } from '../../parts/field.tsx';
import { keep, kept } from '../../state/kept.ts';
import { unitOf } from '../new-joint/quantity.ts';
import { firstFields, type PartPlan, type PlanFields, planned } from './plan-model.ts';
import { arrivalText, powerText, warmText } from './plan-words.ts';

interface Props {
  readonly joint: Joint;
  readonly minimumCelsius: number | undefined;
  /** Beside a live joint: only when it is warm through. */
  readonly compact?: boolean;
}

export function PlanView({ joint, minimumCelsius, compact = false }: Props) {
  const units = unitsOf(joint);
  const place = `preheat.plan.${joint.id}`;
  const typed = useSignal<Partial<PlanFields>>(kept(place, isFields) ?? {});
  const fields: PlanFields = { ...firstFields(joint, minimumCelsius), ...typed.value };
  const { problems, plans } = useMemo(
    () => (minimumCelsius === undefined ? { problems: {}, plans: [] } : planned(joint, minimumCelsius, fields)),
    [joint, minimumCelsius, fields.rate, fields.setPoint, fields.air],
  );
  const set = (field: keyof PlanFields, value: string): void => {
    typed.value = { ...typed.value, [field]: value };
    keep(place, typed.value);
  };
  const number = (field: keyof PlanFields, label: string, unit: string) => (
    <TextField
      label={label}
      kind="number"
      unit={unit}
      value={fields[field]}
      problem={typed.value[field] === undefined && fields[field] === '' ? undefined : problems[field]}
      onValue={(value) => set(field, value)}
    />
  );
  const asked = Object.values(problems);
  return (
    <section class="sheet plan" aria-labelledby="plan-heading">
      <div class="sheet-head">
        <h2 id="plan-heading">How long heating will take</h2>
        <p class="aside">Nothing here changes the joint.</p>
      </div>
      {minimumCelsius === undefined ? (
        <p class="empty">There is no minimum to plan toward yet.</p>
      ) : (
        <>
          <div class="fields">
            {number('rate', 'Rise of the heated face', `${unitOf('difference', units)}/h`)}
            {number('setPoint', 'Set point', unitOf('temperature', units))}
            {number('air', 'Air and cold part', unitOf('temperature', units))}
          </div>
          {plans.length === 0 ? (
            <p class="empty">When each part is warm through will stand here. {asked[0]}</p>
          ) : (
            <div class="plan-answers" role="status">
              {plans.map((each) => (
                <OnePlan
                  key={each.parts.join()}
                  each={each}
                  joint={joint}
                  minimumCelsius={minimumCelsius}
                  compact={compact}
                />
              ))}
            </div>
          )}
          <p class="aside">
            From a part as cold as the air all through. What the heater gives to the air, and what flows sideways out of
            the heated band, comes on top of the power.
          </p>
        </>
      )}
    </section>
  );
}

function OnePlan({
  each,
  joint,
  minimumCelsius,
  compact,
}: {
  readonly each: PartPlan;
  readonly joint: Joint;
  readonly minimumCelsius: number;
  readonly compact: boolean;
}) {
  const units = unitsOf(joint);
  const parts = listText(each.parts);
  if ('because' in each)
    return (
      <p>
        <strong>{parts}</strong> not planned: {each.because}.
      </p>
    );
  const { plan, depthMillimetres, setPointCelsius } = each;
  const hold = joint.procedure?.throughThicknessHoldMinutes ?? 0;
  return (
    <div>
      <h3>
        {parts}, {lengthText(depthMillimetres, units)}
      </h3>
      <p class="plan-answer">{bound(warmText(plan, parts, setPointCelsius, hold, units))}.</p>
      {!compact && <p>{bound(arrivalText(plan, setPointCelsius, milliCelsius(minimumCelsius), units))}.</p>}
      <p>{bound(begun(powerText(plan, units)))}.</p>
    </div>
  );
}

const isFields = (value: unknown): value is Partial<PlanFields> =>
  typeof value === 'object' && value !== null && Object.values(value).every((each) => typeof each === 'string');
