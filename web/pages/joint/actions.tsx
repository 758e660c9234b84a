/** The large buttons of what a person does here, and in their place the form of the one that was pressed. */

import type { Signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { deviationsOf, needsAnswer } from '../../../server/judgement/people/deviations.ts';
import { isBeforeHeat } from '../../../server/judgement/phases/phase-kind.ts';
import type { Act } from '../../../server/weld/entry.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { NotLoaded, useLoaded } from '../../parts/lazy.tsx';
import { Opens } from '../../parts/opens.tsx';
import { connected, contact } from '../../state/station.ts';
import type { OpenSheet, SheetKind } from './act-draft.ts';
import { stepDue, stepWords } from './after-draft.ts';
import { loadForms } from './all-forms.ts';
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
  const forms = useLoaded(loadForms);
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

  if (open.value !== undefined) {
    if (forms === 'loading' || forms === 'failed') return <NotLoaded state={forms} />;
    const [
      sheets,
      passes,
      documents,
      answers,
      hands,
      twins,
      ambient,
      probes,
      afters,
      dispositions,
      changes,
      breaks,
      checks,
    ] = forms;
    const props = {
      live,
      back: () => {
        open.value = undefined;
      },
      done: (act: Act) => {
        open.value = undefined;
        done(act);
      },
    };
    switch (open.value.kind) {
      case 'heat':
        return <sheets.HeatSheet {...props} />;
      case 'pass start':
        return <passes.PassStartSheet {...props} outside={outside} />;
      case 'pass end':
        return <passes.PassEndSheet {...props} />;
      case 'pass details':
        return <passes.PassDetailsSheet {...props} key={open.value.pass} pass={open.value.pass ?? ''} />;
      case 'correct pass':
        return <passes.CorrectPassSheet {...props} key={open.value.pass} pass={open.value.pass ?? ''} />;
      case 'contact reading':
        return <hands.ContactSheet {...props} />;
      case 'twin reading':
        return <twins.TwinSheet {...props} />;
      case 'after':
        return <afters.AfterSheet {...props} />;
      case 'checks':
        return <checks.ChecksSheet {...props} stay={done} />;
      case 'break':
        return <breaks.BreakSheet {...props} />;
      case 'note':
        return <sheets.NoteSheet {...props} />;
      case 'attach':
        return <documents.DocumentSheet {...props} />;
      case 'close':
        return <sheets.CloseSheet {...props} />;
      case 'disposition':
        return <dispositions.DispositionSheet {...props} stay={done} />;
      case 'change over':
        return <changes.ChangeOverSheet {...props} />;
      case 'declare source':
        return <sheets.DeclareSheet {...props} />;
      case 'accept':
        return <answers.AnswerSheet {...props} />;
      case 'ambient check':
        return <ambient.AmbientSheet {...props} />;
      case 'probe':
        return <probes.ProbeSheet {...props} key={open.value.probe} probe={open.value.probe ?? ''} />;
    }
  }

  const { assessment } = live;
  const running = assessment.passes.some((pass) => pass.endedAt === undefined);
  const undecided = deviationsOf(assessment.findings).open.length;
  const deviations = assessment.findings.filter(needsAnswer).length;
  const asked = assessment.requirement.warnings.filter((warning) => warning.wantsAnswer).length;
  const lost = contact.value.kind !== 'live' || !connected.value;
  const breakStep = breakStepsNow(live)[0];
  const checksLeft = checksOpen(assessment);
  const due = stepDue(live);
  const press = (kind: SheetKind) => (): void => {
    open.value = { kind };
  };
  return (
    <div class="actions">
      <ArcProposal live={live} done={done} />
      {assessment.after !== undefined && (
        <Opens
          may={afterKinds}
          class={due === undefined ? 'big' : 'act big'}
          opens="after"
          press={press('after')}
          under={due === undefined ? 'none is due now' : 'or another step after welding'}
        >
          {due === undefined ? 'Step after welding' : stepWords[due]}
        </Opens>
      )}
      {running && (
        <Opens may="pass end" class="act big" opens="pass end" press={press('pass end')}>
          End pass
        </Opens>
      )}
      {!running && assessment.after === undefined && (
        <Opens
          may="pass start"
          class={outside === undefined ? 'act big' : 'big'}
          opens="pass start"
          press={press('pass start')}
          under={outside === undefined ? undefined : known ? 'conditions not met' : 'conditions not known'}
        >
          Start pass
        </Opens>
      )}
      {assessment.passes.length > 0 && !running && assessment.after === undefined && (
        <Opens may={afterKinds} class="big" opens="after" press={press('after')} under="after the last arc">
          Welding complete
        </Opens>
      )}
      {breakStep !== undefined && (
        <Opens
          may={['break', 'break inspected']}
          class={isInspectionAsked(assessment.conditions) ? 'big asks' : 'big'}
          opens="break"
          press={press('break')}
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
      <Opens
        may="heat"
        class="big"
        opens="heat"
        press={press('heat')}
        under={assessment.heat === 'not entered' ? 'not entered yet' : `now ${assessment.heat}`}
      >
        {assessment.heat === 'on' ? 'Heat off' : 'Heat on'}
      </Opens>
      {checksLeft !== undefined && (
        <Opens
          may="check answered"
          class={checksLeft > 0 ? 'big asks' : 'big'}
          opens="checks"
          press={press('checks')}
          under={checksLeft > 0 ? `${checksLeft} open before the next arc` : 'none open before the next arc'}
        >
          Checks
        </Opens>
      )}
      {isCheckDue(assessment) && (
        <Opens
          may="ambient check"
          class="big asks"
          opens="ambient check"
          press={press('ambient check')}
          under="before the heat, each touched in turn"
        >
          Check probes
        </Opens>
      )}
      <Opens may="contact reading" class="big" opens="contact reading" press={press('contact reading')}>
        Contact reading
      </Opens>
      {assessment.twinAsked !== undefined && (
        <Opens
          may="contact reading"
          class="big"
          opens="twin reading"
          press={press('twin reading')}
          under={`beside ${assessment.twinAsked.probe}, once a shift`}
        >
          Read by hand
        </Opens>
      )}
      {asked > 0 && (
        <Opens
          may="accept"
          class="big asks"
          opens="accept"
          press={press('accept')}
          under={asked === 1 ? '1 named answer waits' : `${asked} named answers wait`}
        >
          Answer
        </Opens>
      )}
      {deviations > 0 && (
        <Opens
          may="disposition"
          class={undecided > 0 ? 'big asks' : 'big'}
          opens="disposition"
          press={press('disposition')}
          under={undecided > 0 ? `${undecided} open` : 'all decided'}
        >
          Deviations
        </Opens>
      )}
      <div class="small">
        {(running || assessment.after !== undefined) && (
          <Opens may="pass start" opens="pass start" press={press('pass start')}>
            {running ? 'Another pass' : 'Another arc'}
          </Opens>
        )}
        {!isCheckDue(assessment) && (
          <Opens may="ambient check" opens="ambient check" press={press('ambient check')}>
            Check probes
          </Opens>
        )}
        <Opens may="note" opens="note" press={press('note')}>
          Note
        </Opens>
        <Opens may="attach" opens="attach" press={press('attach')}>
          Photo or document
        </Opens>
        <Opens may="close" opens="close" press={press('close')}>
          Close the joint
        </Opens>
      </div>
      {lost && (
        <p class="hint">The station is not heard: nothing can be recorded now. What you type is kept on this device.</p>
      )}
    </div>
  );
}

const afterKinds = [
  'welding complete',
  'post-heating',
  'cover',
  'heat treatment begun',
  'testing begun',
  'spot examined',
] as const;

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
