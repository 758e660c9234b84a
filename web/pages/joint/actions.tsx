/** The large buttons of what a person does here, and in their place the form of the one that was pressed. */

import type { Signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { deviationsOf, needsAnswer } from '../../../server/judgement/people/deviations.ts';
import { isBeforeHeat } from '../../../server/judgement/phases/phase-kind.ts';
import { type Act, afterKinds } from '../../../server/weld/entry.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { NotLoaded, useLoaded } from '../../parts/lazy.tsx';
import { Opens } from '../../parts/opens.tsx';
import { connected, contact } from '../../state/station.ts';
import type { OpenSheet } from './act-draft.ts';
import { stepDue, stepWords } from './after-draft.ts';
import { ArcProposal } from './arc-proposal.tsx';
import { breakStepsNow, breakStepWords, isInspectionAsked } from './break-draft.ts';

interface Props {
  readonly live: LiveJoint;
  /** What a pass begun now would be recorded as; undefined while all conditions are met. */
  readonly outside: string | undefined;
  readonly known: boolean;
  /** The form that stands in place of the buttons. */
  readonly open: Signal<OpenSheet | undefined>;
  readonly done: (act: Act) => void;
}

export function Actions({ live, outside, known, open, done }: Props) {
  const forms = useLoaded(() => import('./open-form.tsx'));
  const pressed = useRef<OpenSheet | undefined>(undefined);
  // Back from a form, the keyboard stands again on the button that opened it.
  useEffect(() => {
    if (open.value === undefined && pressed.current !== undefined) {
      const { kind, probe, pass } = pressed.current;
      const of = probe ?? pass;
      const opener = of === undefined ? kind : `${kind} ${of}`;
      document.querySelector<HTMLButtonElement>(`[data-opens=${JSON.stringify(opener)}]`)?.focus();
    }
    pressed.current = open.value ?? pressed.current;
  }, [open.value]);
  const close = (): void => {
    open.value = undefined;
  };

  if (open.value !== undefined) {
    if (forms === 'loading' || forms === 'failed') return <NotLoaded state={forms} />;
    return (
      <forms.OpenForm
        open={open.value}
        live={live}
        outside={outside}
        back={close}
        done={(act) => {
          close();
          done(act);
        }}
        stay={done}
      />
    );
  }

  const to: To = (kind) => ({
    opens: kind,
    press: () => {
      open.value = { kind };
    },
  });
  const lost = contact.value.kind !== 'live' || !connected.value;
  return (
    <div class="actions">
      <ArcProposal live={live} done={done} />
      <WeldingDeeds live={live} outside={outside} known={known} to={to} />
      <HeatAndReadings live={live} to={to} />
      <WhatWaits live={live} to={to} />
      <Seldom live={live} to={to} />
      {lost && (
        <p class="hint">The station is not heard: nothing can be recorded now. What you type is kept on this device.</p>
      )}
    </div>
  );
}

/** What a button is given that opens the form of a kind. */
type To = (kind: OpenSheet['kind']) => { readonly opens: string; readonly press: () => void };

interface Group {
  readonly live: LiveJoint;
  readonly to: To;
}

const isRunning = ({ passes }: LiveJoint['assessment']): boolean => passes.some((pass) => pass.endedAt === undefined);

/** Passes, the steps after the last arc, and breaks. */
function WeldingDeeds({ live, outside, known, to }: Group & Pick<Props, 'outside' | 'known'>) {
  const { assessment } = live;
  const running = isRunning(assessment);
  const breakStep = breakStepsNow(live)[0];
  const due = stepDue(live);
  return (
    <>
      {assessment.after !== undefined && (
        <Opens
          may={afterKinds}
          class={due === undefined ? 'big' : 'act big'}
          {...to('after')}
          under={due === undefined ? 'none is due now' : 'or another step after welding'}
        >
          {due === undefined ? 'Step after welding' : stepWords[due]}
        </Opens>
      )}
      {running && (
        <Opens may="pass end" class="act big" {...to('pass end')}>
          End pass
        </Opens>
      )}
      {!running && assessment.after === undefined && (
        <Opens
          may="pass start"
          class={outside === undefined ? 'act big' : 'big'}
          {...to('pass start')}
          under={outside === undefined ? undefined : known ? 'conditions not met' : 'conditions not known'}
        >
          Start pass
        </Opens>
      )}
      {assessment.passes.length > 0 && !running && assessment.after === undefined && (
        <Opens may={afterKinds} class="big" {...to('after')} under="after the last arc">
          Welding complete
        </Opens>
      )}
      {breakStep !== undefined && (
        <Opens
          may={['break', 'break inspected']}
          class={isInspectionAsked(assessment.conditions) ? 'big asks' : 'big'}
          {...to('break')}
          under={
            breakStep === 'inspected'
              ? 'asked for after the break'
              : breakStep === 'break ended'
                ? 'or inspected after it'
                : 'how cold, how long is kept'
          }
        >
          {breakStep === 'inspected' ? 'Inspect' : breakStepWords[breakStep]}
        </Opens>
      )}
    </>
  );
}

function HeatAndReadings({ live: { assessment }, to }: Group) {
  const checksLeft = checksOpen(assessment);
  return (
    <>
      <Opens
        may="heat"
        class="big"
        {...to('heat')}
        under={assessment.heat === 'not entered' ? 'not entered yet' : `now ${assessment.heat}`}
      >
        {assessment.heat === 'on' ? 'Heat off' : 'Heat on'}
      </Opens>
      {checksLeft !== undefined && (
        <Opens
          may="check answered"
          class={checksLeft > 0 ? 'big asks' : 'big'}
          {...to('checks')}
          under={checksLeft > 0 ? `${checksLeft} open before the next arc` : 'none open before the next arc'}
        >
          Checks
        </Opens>
      )}
      {isCheckDue(assessment) && (
        <Opens
          may="ambient check"
          class="big asks"
          {...to('ambient check')}
          under="before the heat, each touched in turn"
        >
          Check probes
        </Opens>
      )}
      <Opens may="contact reading" class="big" {...to('contact reading')}>
        Contact reading
      </Opens>
      {assessment.twinAsked !== undefined && (
        <Opens
          may="contact reading"
          class="big"
          {...to('twin reading')}
          under={`beside ${assessment.twinAsked.probe}, once a shift`}
        >
          Read by hand
        </Opens>
      )}
    </>
  );
}

/** Answers and decisions that the joint waits for. */
function WhatWaits({ live: { assessment }, to }: Group) {
  const undecided = deviationsOf(assessment.findings).open.length;
  const deviations = assessment.findings.filter(needsAnswer).length;
  const asked = assessment.requirement.warnings.filter((warning) => warning.wantsAnswer).length;
  return (
    <>
      {asked > 0 && (
        <Opens
          may="accept"
          class="big asks"
          {...to('accept')}
          under={asked === 1 ? '1 named answer waits' : `${asked} named answers wait`}
        >
          Answer
        </Opens>
      )}
      {deviations > 0 && (
        <Opens
          may="disposition"
          class={undecided > 0 ? 'big asks' : 'big'}
          {...to('disposition')}
          under={undecided > 0 ? `${undecided} open` : 'all decided'}
        >
          Deviations
        </Opens>
      )}
    </>
  );
}

function Seldom({ live: { assessment }, to }: Group) {
  const running = isRunning(assessment);
  return (
    <div class="small">
      {(running || assessment.after !== undefined) && (
        <Opens may="pass start" {...to('pass start')}>
          {running ? 'Another pass' : 'Another arc'}
        </Opens>
      )}
      {!isCheckDue(assessment) && (
        <Opens may="ambient check" {...to('ambient check')}>
          Check probes
        </Opens>
      )}
      <Opens may="note" {...to('note')}>
        Note
      </Opens>
      <Opens may="attach" {...to('attach')}>
        Photo or document
      </Opens>
      <Opens may="close" {...to('close')}>
        Close the joint
      </Opens>
    </div>
  );
}

/** Asked for, not made yet, and the part still cold. */
const isCheckDue = ({ ambientCheck, phase, heat }: LiveJoint['assessment']): boolean =>
  ambientCheck !== undefined &&
  ambientCheck.asked !== 'not asked' &&
  ambientCheck.made === undefined &&
  isBeforeHeat(phase) &&
  heat !== 'on';

/** Checks not in order and hold points that the next pass would go past; undefined where the procedure has none. */
function checksOpen({ checks = [], points = [], conditions }: LiveJoint['assessment']): number | undefined {
  if (checks.length + points.length === 0) return undefined;
  const open = checks.filter(({ answered }) => answered === undefined || answered.answer === 'not in order');
  const held = conditions.find(({ id, state }) => id === 'hold points' && state === 'not met')?.missing ?? [];
  return open.length + held.length;
}
