/** The job in a few lines for page one: when it was warm, when it was welded, and the extremes that decide. */
import type { Assessment } from '../../judgement/assessment.ts';
import type { PassStatus } from '../../judgement/pass-status.ts';
import { instant, type MilliCelsius } from '../../measure/quantity.ts';
import { inside } from '../../wording/list.ts';
import { throughAfterText, throughText } from '../../wording/section.ts';
import { atMostText, ofLimitText } from '../../wording/temperature.ts';
import type { ReportFacts } from '../facts.ts';
import type { Times } from '../paper.ts';

export const inShort = ({ assessment, timeline }: ReportFacts, times: Times): (readonly [string, string])[] => {
  const { passes, limits, minimumFirstReachedAt, findings, alarms, requirement } = assessment;
  const { units } = requirement;
  const heated = timeline.find(
    ({ input }) => input.type === 'act' && input.act.kind === 'heat' && input.act.state === 'on',
  );
  const coldest = extreme(passes, ({ coldestDuring, coldestAtStart }) => [coldestAtStart, coldestDuring], -1);
  const interpass = extreme(passes, (pass) => [pass.interpass], 1);
  return [
    ['Heat first on', heated === undefined ? 'not entered' : times.when(happened(heated.input))],
    [
      'At minimum everywhere',
      minimumFirstReachedAt === undefined ? 'never' : `first at ${times.when(minimumFirstReachedAt)}`,
    ],
    ...throughRows(assessment, times),
    ['Passes', passesText(passes, times)],
    [
      'Coldest at or during a pass',
      coldest === undefined
        ? 'none measured'
        : `${ofLimitText(coldest.temperature, limits.preheatMinimum, units)} at ${coldest.probe}, pass ${coldest.pass}`,
    ],
    [
      'Hottest interpass',
      interpass === undefined
        ? 'none measured'
        : `${atMostText(interpass.temperature, limits.interpassMaximum, units)} at ${interpass.probe}, pass ${interpass.pass}`,
    ],
    [
      'Findings',
      `${findings.length}; alarms not yet settled: ${alarms.filter(({ suppressed }) => suppressed === undefined).length}`,
    ],
  ];
};

/** Only where the procedure asks for it. */
const throughRows = ({ throughThickness: through, after }: Assessment, times: Times): (readonly [string, string])[] => {
  if (!through.asked) return [];
  if (after !== undefined) return [['Through the thickness', throughAfterText(through, times.when)]];
  const { firstDoneAt } = through;
  const first = firstDoneAt === undefined ? '' : `first done at ${times.when(firstDoneAt)}; at the end: `;
  return [['Through the thickness', `${first}${inside(throughText(through))}`]];
};

const happened = (input: ReportFacts['timeline'][number]['input']) =>
  input.type === 'act' && input.act.kind === 'heat' ? instant(input.act.happenedAt ?? input.at) : input.at;

const passesText = (passes: readonly PassStatus[], times: Times): string => {
  const [first] = passes;
  if (first === undefined) return 'none entered';
  const running = passes.filter(({ endedAt }) => endedAt === undefined).length;
  const last = instant(Math.max(...passes.map(({ startedAt, endedAt }) => endedAt ?? startedAt)));
  const open = running === 0 ? '' : `; ${running} without an end entered`;
  return `${passes.length}, ${times.span(instant(Math.min(...passes.map(({ startedAt }) => startedAt))), last)}${open}`;
};

interface At {
  readonly probe: string;
  readonly temperature: MilliCelsius;
}

/** Lowest (-1) or highest (1) over all passes. */
const extreme = (
  passes: readonly PassStatus[],
  values: (pass: PassStatus) => readonly (At | undefined)[],
  sign: 1 | -1,
): (At & { readonly pass: string }) | undefined =>
  passes
    .flatMap((pass) => values(pass).flatMap((value) => (value === undefined ? [] : [{ ...value, pass: pass.pass }])))
    .reduce<(At & { readonly pass: string }) | undefined>(
      (best, each) => (best === undefined || sign * (each.temperature - best.temperature) > 0 ? each : best),
      undefined,
    );
