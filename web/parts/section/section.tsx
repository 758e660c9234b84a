/** Where it is measured, on the screen: the section with live values at their places, and the plan where it is asked for. */
import { useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { AlarmPriority } from '../../../server/judgement/alarm-rules.ts';
import { unitsOf } from '../../../server/measure/units.ts';
import { planOf } from '../../../server/placing/plan.ts';
import { sectionOf } from '../../../server/placing/section.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { libertyText } from '../../../server/wording/placing.ts';
import { placeMark } from '../../format/place.ts';
import type { ProbeRow } from '../../state/probe-rows.ts';
import { Drawing } from './drawing.tsx';
import { planSheet, sectionSheet } from './on-screen.ts';

interface Props {
  readonly joint: Joint;
  /** Live values by probe; absent while a joint is being entered. */
  readonly rows?: ReadonlyMap<string, ProbeRow>;
  readonly heat?: 'on' | 'off' | 'not entered';
  /** Probes with an alarm to see to. */
  readonly alarms?: ReadonlyMap<string, AlarmPriority>;
}

export function Section({ joint, rows, heat, alarms }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useSignal(640);
  const planOpen = useSignal(false);
  useEffect(() => {
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined && entry.contentRect.width > 0)
        width.value = Math.max(300, Math.floor(entry.contentRect.width));
    });
    if (box.current !== null) watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  const section = useMemo(() => sectionSheet(joint, width.value), [joint, width.value]);
  const plan = useMemo(
    () => (planOpen.value ? planSheet(joint, width.value) : undefined),
    [joint, width.value, planOpen.value],
  );
  const shared = { joint, rows, alarms, heatOn: heat === 'on' };
  return (
    <div class="section" ref={box}>
      <Drawing
        {...shared}
        sheet={section}
        title="Cross-section with the probes at their places"
        spoken={spoken('Cross-section', joint, rows, alarms)}
      />
      <p class="aside">
        {sectionOf(joint).liberties.map(libertyText).join(' ')} {heating(joint, heat)}
      </p>
      <details
        onToggle={(event) => {
          planOpen.value = event.currentTarget.open;
        }}
      >
        <summary>Plan: seen onto the faces</summary>
        {plan !== undefined && (
          <>
            <Drawing
              {...shared}
              sheet={plan}
              title="Plan with the probes at their places"
              spoken={spoken('Plan', joint, rows, alarms)}
            />
            <p class="aside">
              {planOf(joint).liberties.map(libertyText).join(' ')} Dotted: where the temperature has to be. Ringed only:
              on the face that looks away.
            </p>
          </>
        )}
      </details>
    </div>
  );
}

const heating = ({ heating: { means, face } }: Joint, heat: Props['heat']): string => {
  const where = face === 'both' ? 'both faces' : `the ${face} face`;
  const state = heat === undefined ? '' : heat === 'not entered' ? ', not entered as on or off' : `, now ${heat}`;
  return `Heat by ${means} on ${where}${state}.`;
};

const spoken = (what: string, joint: Joint, rows: Props['rows'], alarms: Props['alarms']): string =>
  `${what}. ${joint.probes
    .filter((probe) => probe.place !== undefined)
    .map(
      (probe) =>
        `${probe.id} at ${placeMark(probe.place!, unitsOf(joint))}${rows === undefined ? '' : `: ${rows.get(probe.id)?.value ?? 'no reading'}`}${alarms?.has(probe.id) === true ? ', alarm' : ''}`,
    )
    .join('; ')}.`;
