/** Every scenario file beside this one, judged and compared with what it expects, and folded in other ways to the same end. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isWeldingComplete } from '../../../server/judgement/after/after-welding.ts';
import { isCorrection } from '../../../server/judgement/anew.ts';
import { assess } from '../../../server/judgement/assess.ts';
import type { Alarm, Assessment, Phase } from '../../../server/judgement/assessment.ts';
import { effectiveAt } from '../../../server/judgement/effect.ts';
import { advance, take } from '../../../server/judgement/fold.ts';
import { createJudge, judgeAll } from '../../../server/judgement/judge.ts';
import { deviationCounts } from '../../../server/judgement/people/deviations.ts';
import { phaseOf } from '../../../server/judgement/phases/phase.ts';
import { conditions, isReady } from '../../../server/judgement/readiness.ts';
import { begin, type State } from '../../../server/judgement/state.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import { arrival } from '../../../server/weld/entry.ts';
import { stillOpenText } from '../../../server/wording/after-open.ts';
import { deviationCountText } from '../../../server/wording/deviation.ts';
import { correctionText, passHeatText } from '../../../server/wording/pass.ts';
import { verdictText } from '../../../server/wording/verdict.ts';
import { readScenario, type Scenario, scenarioStart } from '../../support/scenario.ts';

const folder = new URL('./scenarios/', import.meta.url);
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.txt'))
  .sort();

describe('scenarios', () => {
  it('are there', () => {
    expect(files.length).toBeGreaterThan(20);
  });

  for (const file of files) {
    const scenario = readScenario(readFileSync(new URL(file, folder), 'utf8'));
    let judged: Assessment | undefined;
    const atOnce = (): Assessment => {
      judged ??= judgeAll(scenario.inputs, scenario.end).assessment;
      return judged;
    };
    it(`${file}: ${scenario.title}`, () => {
      expect(inWords(scenario, atOnce())).toEqual([...scenario.expected].sort());
    });
    it(`${file}: the same when time passes in many steps`, () => {
      expect(comesLate(scenario) ? inSteps(scenario, 3_100) : foldedInSteps(scenario, 700)).toEqual(atOnce());
      stepped += 1;
    });
  }

  it('reach every phase from every phase from which it may be reached, and by no other way', (context) => {
    if (stepped < files.length) context.skip('only some of the scenarios were run');
    const allowed = readFileSync(new URL('./phases.txt', import.meta.url), 'utf8')
      .split('\n')
      .filter((line) => line.includes(' -> '));
    expect([...reached].sort()).toEqual(allowed.sort());
  });
});

let stepped = 0;
const reached = new Set<string>();

/** Something is told after it happened, so that only the judge, and not the bare fold, can put it in its place. */
const comesLate = ({ inputs }: Scenario): boolean =>
  inputs.some((input) => effectiveAt(input) < arrival(input) || isCorrection(input));

/** Through the bare fold, with each change of phase on the way. */
function foldedInSteps({ inputs: [opening, ...rest], end }: Scenario, step: number): Assessment {
  if (opening?.type !== 'station' || opening.event.kind !== 'opened') throw new Error('no opening');
  const state = begin(opening.at, opening.event);
  let phase = phaseNow(state);
  const look = (): void => {
    const next = phaseNow(state);
    if (next !== phase) reached.add(`${phase} -> ${next}`);
    phase = next;
  };
  for (const input of rest) {
    for (let now = state.now + step; now < arrival(input); now += step) {
      advance(state, now as Instant);
      look();
    }
    take(state, input);
    look();
  }
  return assess(advance(state, end));
}

function phaseNow(state: State): Phase {
  const list = conditions(state);
  return phaseOf(state, list, state.closedAt === undefined && !isWeldingComplete(state) && isReady(list));
}

function inSteps(scenario: Scenario, step: number): Assessment {
  const [first, ...rest] = scenario.inputs;
  if (first?.type !== 'station' || first.event.kind !== 'opened') throw new Error('no opening');
  let taken = 1;
  const judge = createJudge(first.at, first.event, () => scenario.inputs.slice(0, taken));
  let now: number = first.at;
  for (const input of rest) {
    for (; now + step < arrival(input); now += step) judge.advance((now + step) as typeof first.at);
    judge.take(input);
    taken += 1;
  }
  judge.advance(scenario.end);
  return judge.assess();
}

/** The assessment in the words that a scenario file expects: only kinds of line that the file uses are compared, except findings and verdict. */
function inWords(scenario: Scenario, assessment: Assessment): string[] {
  const uses = (word: string): boolean => scenario.expected.some((each) => each.startsWith(`${word} `));
  const time = (at: number): string => {
    const seconds = Math.round((at - scenarioStart) / 1000);
    return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
  };
  const lines = [`verdict ${assessment.verdict}`];
  for (const each of assessment.findings) {
    const what = [each.kind, each.sign, each.pass, each.part, each.instrument, each.act, each.item, each.probe]
      .filter((part) => part !== undefined)
      .join(', ');
    const number = each.value === undefined ? '' : `, ${each.value / 1000}`;
    lines.push(`finding ${what}${number}, ${time(each.from)} to ${each.to === undefined ? 'end' : time(each.to)}`);
  }
  if (uses('deviations')) lines.push(`deviations ${deviationCountText(deviationCounts(assessment.findings))}`);
  if (uses('says')) lines.push(`says ${verdictText(assessment)}`);
  if (uses('phase')) lines.push(`phase ${assessment.phase}`);
  if (uses('reached'))
    lines.push(
      `reached ${assessment.minimumFirstReachedAt === undefined ? 'never' : time(assessment.minimumFirstReachedAt)}`,
    );
  if (uses('soak'))
    lines.push(`soak ${assessment.soak.state}${assessment.soak.voidedBy ? ` by ${assessment.soak.voidedBy}` : ''}`);
  const { throughThickness: through } = assessment;
  if (uses('through'))
    lines.push(
      `through ${through.state}${through.doneAt === undefined ? '' : ` at ${time(through.doneAt)}`}${through.voidedBy ? ` by ${through.voidedBy}` : ''}`,
    );
  if (uses('inside'))
    for (const { part, coldest, reason } of assessment.sections)
      lines.push(
        `inside ${part} ${reason ?? (coldest === undefined ? 'unknown' : [coldest.low, coldest.likely, coldest.high].map((each) => (each / 1000).toFixed(1)).join(' '))}`,
      );
  if (uses('pass')) {
    for (const pass of assessment.passes)
      lines.push(`pass ${pass.pass} minimum ${pass.minimum}, maximum ${pass.maximum}`);
  }
  if (uses('arc')) {
    const { isBurning, proposal } = assessment.arc ?? { isBurning: false };
    const proposed = proposal === undefined ? 'nothing proposed' : `${proposal.kind} proposed at ${time(proposal.at)}`;
    lines.push(`arc ${isBurning ? 'burns' : 'is out'}, ${proposed}`);
  }
  if (uses('corrected')) {
    for (const { pass, corrections = [] } of [...assessment.passes, ...(assessment.struckPasses ?? [])])
      for (const each of corrections) lines.push(`corrected ${pass}: ${correctionText(each, 'metric', time)}`);
  }
  if (uses('heat')) {
    for (const { pass, heat } of assessment.passes) lines.push(`heat of pass ${pass}: ${passHeatText(heat, 'metric')}`);
  }
  if (uses('ahead')) lines.push(aheadWords(assessment));
  if (uses('break')) lines.push(...breakWords(assessment, time));
  if (uses('after')) lines.push(...afterWords(assessment, time));
  if (uses('open')) lines.push(...stillOpenText(assessment).map((each) => `open ${each}`));
  if (uses('alarm') && assessment.alarms.length === 0) lines.push('alarm none');
  if (uses('alarm')) for (const alarm of assessment.alarms) lines.push(`alarm ${alarm.key} ${alarmWords(alarm)}`);
  if (uses('condition')) {
    for (const each of assessment.conditions)
      if (each.state !== 'met') lines.push(`condition ${each.id} ${each.state}, ${each.reason}`);
  }
  return lines.sort();
}

function aheadWords({ ahead: { required, next, when } }: Assessment): string {
  const time = when === undefined ? 'not told' : `${when.what} in ${Math.round(when.time / 1000)} s by ${when.by}`;
  return `ahead ${required.join(' + ') || 'nothing'}; next ${next ?? 'nothing'}; ${time}`;
}

function breakWords({ breaks = [] }: Assessment, time: (at: number) => string): string[] {
  if (breaks.length === 0) return ['break none'];
  return breaks.map(({ from, to, by, kept, coldest, below, asks }) => {
    const cold = coldest === undefined ? 'nothing read' : `coldest ${coldest.temperature / 1000} at ${coldest.probe}`;
    const asked = asks === undefined ? 'not stated' : asks.length === 0 ? 'nothing' : asks.join(' + ');
    const until = to === undefined ? 'end' : time(to);
    return `break ${by}, ${time(from)} to ${until}, ${kept}, ${cold}, ${below / 1000} s below, asks ${asked}`;
  });
}

function afterWords({ after }: Assessment, time: (at: number) => string): string[] {
  if (after === undefined) return ['after nothing'];
  const { postHeating: held, wait, heatTreatment } = after;
  return [
    ...(held === undefined ? [] : [`after post-heating ${held.state}, ${Math.round(held.held / 6000) / 10} min held`]),
    `after wait ${wait.state}${wait.state === 'waiting' || wait.state === 'over' ? `, ${wait.hours} h from ${time(wait.from)}` : ''}`,
    ...(heatTreatment?.cooledAt === undefined ? [] : [`after cooled at ${time(heatTreatment.cooledAt)}`]),
  ];
}

function alarmWords({ state, suppressed, shelved }: Alarm): string {
  const aside = shelved === undefined ? '' : `, shelved by ${shelved.by}`;
  return `${state}${suppressed === undefined ? '' : `, suppressed: ${suppressed}`}${aside}`;
}
