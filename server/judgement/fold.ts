/**
 * The fold. `advance` lets time pass: silence, delays, waits and holds each take effect at their due instant,
 * so that one step or many give the same. `take` takes one input in, advancing first. Live, over an
 * imported log, for a report and when a record is verified: always these two. Both work on the state handed
 * in and return it; whoever wants to keep the old one clones it (judge.ts does).
 */
import type { Instant, Milliseconds } from '../measure/quantity.ts';
import { requirement } from '../metallurgy/requirement.ts';
import type { Act, Input, StationEvent } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { afterDue, closeAfter, settleAfter, takeAfterAct } from './after/after-welding.ts';
import { acknowledge, alarmsDue, forgetUnwatched, settleAlarms } from './alarms.ts';
import { ambientMissed, settleAmbient, takeAmbientCheck } from './ambient/check.ts';
import { arcDue, settleArc, takeArc } from './arc-watch.ts';
import { breaksDue, endBreak, settleBreaks, takeBreak } from './breaks/breaks.ts';
import { noteStage, takeCheck } from './checks/checks.ts';
import { distrust, trustAgain } from './distrust.ts';
import { effectiveAt } from './effect.ts';
import { note } from './findings.ts';
import { driveSections } from './inside/drive.ts';
import { sectionsOf } from './inside/section-state.ts';
import { settleThrough, throughDue } from './inside/through-thickness.ts';
import { limitsOf } from './limits-of.ts';
import { settleLimits } from './limits-watch.ts';
import { handDue, takeHandReading } from './measuring/hand-readings.ts';
import { registerDue, revisedRegister, settleRegister, takeInstrumentAct } from './measuring/register.ts';
import { addDetails } from './pass-heat.ts';
import { endPass, passesDue, settlePasses, startPass } from './passes.ts';
import { dispose } from './people/deviations.ts';
import { takesEffect } from './people/entry-role.ts';
import { probeDue, settleProbes, takeScan } from './probe-watch.ts';
import { shelve, unshelve } from './shelving.ts';
import { settleSoak, soakDue, soakOnHeat } from './soak.ts';
import { sourceAfter } from './source.ts';
import { withSpares } from './spares.ts';
import type { State } from './state.ts';
import { watchProbes } from './suspects.ts';
import { watchesDue } from './watches.ts';

/** Lets time pass up to the instant; an earlier instant changes nothing. */
export function advance(state: State, until: Instant): State {
  for (;;) {
    const due = nextDue(state);
    if (due === undefined || due > until) break;
    state.now = due;
    settle(state);
  }
  if (until > state.now) state.now = until;
  return state;
}

/** Takes the input in at its effective instant. Inputs must come in the order of that instant (judge.ts sorts). */
export function take(state: State, input: Input): State {
  advance(state, effectiveAt(input));
  if (state.closedAt !== undefined) return state;
  state.source = sourceAfter(state.source, input);
  switch (input.type) {
    case 'scan':
      takeScan(state, input.scan);
      takeArc(state, input.scan);
      settleProbes(state);
      watchProbes(state, input.scan);
      driveSections(state, input.scan);
      break;
    case 'act':
      if (takesEffect(state, input.act, input.who, input.role)) takeAct(state, input.act, input, input.at);
      break;
    case 'station':
      takeStation(state, input.event);
      break;
  }
  settle(state);
  return state;
}

function nextDue(state: State): Instant | undefined {
  if (state.closedAt !== undefined) return undefined;
  let next: Instant | undefined;
  for (const dues of dueInstants)
    for (const due of dues(state)) if (due > state.now && (next === undefined || due < next)) next = due;
  return next;
}

const dueInstants: readonly ((state: State) => readonly Instant[])[] = [
  registerDue,
  handDue,
  probeDue,
  breaksDue,
  soakDue,
  throughDue,
  passesDue,
  arcDue,
  watchesDue,
  afterDue,
  alarmsDue,
];

function settle(state: State): void {
  if (state.closedAt !== undefined) return;
  settleRegister(state);
  settleProbes(state);
  settleAmbient(state);
  settleBreaks(state);
  settleSoak(state);
  settleThrough(state);
  settlePasses(state);
  settleArc(state);
  settleLimits(state);
  settleAfter(state);
  settleAlarms(state);
}

function takeAct(
  state: State,
  act: Act,
  { who, role, corrected }: Extract<Input, { readonly type: 'act' }>,
  enteredAt: Instant,
): void {
  switch (act.kind) {
    case 'heat':
      state.heat = act.state;
      state.heatSince = state.now;
      soakOnHeat(state, act.state);
      if (act.state === 'on') ambientMissed(state);
      return;
    case 'pass start':
      startPass(state, act, enteredAt, corrected);
      return;
    case 'pass end':
      endPass(state, act.pass, act);
      return;
    case 'pass details':
      addDetails(state, act.pass, act);
      return;
    case 'correct pass':
      // What it puts right is right already (pass-corrections.ts).
      note(state, 'pass corrected', state.now, { pass: act.pass, who });
      return;
    case 'contact reading':
      takeHandReading(state, act, who, enteredAt);
      return;
    case 'calibration':
    case 'verification':
    case 'adjustment':
      takeInstrumentAct(state, act);
      return;
    case 'ambient check':
      takeAmbientCheck(state, act, who);
      return;
    case 'acknowledge':
      acknowledge(state, act.alarm, who);
      return;
    case 'shelve':
      shelve(state, act, who);
      return;
    case 'unshelve':
      unshelve(state, act.alarm);
      return;
    case 'accept':
      state.acceptances.push({
        subject: act.subject,
        who,
        ...(act.method === undefined ? {} : { method: act.method }),
      });
      requireAnew(state, state.entered);
      return;
    case 'disposition':
      dispose(state, act, who, role);
      return;
    case 'revise':
      requireAnew(state, act.joint);
      return;
    case 'close':
      for (const pass of state.passes) endPass(state, pass.pass);
      endBreak(state);
      closeAfter(state);
      noteStage(state, 'closing');
      for (const finding of state.findings) finding.to ??= state.now;
      state.alarms = [];
      state.shelvings = [];
      state.closedAt = state.now;
      return;
    case 'distrust probe':
      distrust(state, act.probe, 'person', who);
      return;
    case 'trust probe again':
      trustAgain(state, act.probe);
      return;
    case 'spare takes over':
      state.takeovers.push({
        spare: act.spare,
        probe: act.probe,
        ...(act.place === undefined ? {} : { place: act.place }),
      });
      requireAnew(state, state.entered);
      return;
    case 'break':
    case 'break inspected':
      takeBreak(state, act, who, role);
      return;
    case 'check answered':
    case 'point released':
    case 'point waived':
    case 'point refused':
      takeCheck(state, act, who, role);
      return;
    case 'welding complete':
      endBreak(state);
      takeAfterAct(state, act);
      return;
    case 'post-heating':
    case 'cover':
    case 'heat treatment begun':
    case 'testing begun':
    case 'spot examined':
      takeAfterAct(state, act);
      return;
    case 'declare source':
    case 'hand-over':
    case 'note':
    case 'attach':
      return;
  }
}

function takeStation(state: State, event: StationEvent): void {
  switch (event.kind) {
    case 'period':
      takePeriod(state, event.board, event.periodMilliseconds as Milliseconds);
      return;
    case 'station':
      if (event.state === 'not recording') note(state, 'recording interrupted', state.now);
      return;
    case 'source':
    case 'opened':
    case 'imported file':
    case 'board':
    case 'link':
    case 'hole':
    case 'twin':
    case 'clock':
    case 'suspended':
      return;
  }
}

/** A longer period holds at once; a shorter one from the next scan on, or the last reading would be stale before its successor can come. */
function takePeriod(state: State, board: string, period: Milliseconds): void {
  if (period >= (state.boardPeriods[board] ?? state.period)) state.boardPeriods[board] = period;
  else state.shorterPeriods[board] = period;
}

/** The joint or an acceptance changed: the requirement is made anew, and probes that stay keep what is known of them. */
function requireAnew(state: State, entered: Joint): void {
  const joint = withSpares(entered, state.takeovers);
  const kept = new Map(state.probes.map((each) => [each.probe.id, each]));
  state.entered = entered;
  state.joint = joint;
  state.requirement = requirement(joint, state.acceptances);
  state.limits = limitsOf(joint, state.requirement);
  revisedRegister(state, joint);
  state.sections = sectionsOf(joint, state.sections);
  for (const each of state.probes) {
    const stays = joint.probes.find(({ id }) => id === each.probe.id);
    const sameWire = stays?.board === each.probe.board && stays.channel === each.probe.channel;
    if (!sameWire) trustAgain(state, each.probe.id);
  }
  state.probes = joint.probes.map((probe) => {
    const before = kept.get(probe.id);
    const sameWire = before?.probe.board === probe.board && before.probe.channel === probe.channel;
    return before !== undefined && sameWire ? { ...before, probe } : { probe, recent: [] };
  });
  forgetUnwatched(state);
}
