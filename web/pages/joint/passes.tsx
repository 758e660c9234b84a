/** The running list of passes: what each was welded with, what was measured before it, how it was judged; and their charts. */

import type { Instant } from '../../../server/measure/quantity.ts';
import { handValueText } from '../../../server/wording/instrument.ts';
import { begun } from '../../../server/wording/list.ts';
import { correctionText, detailTexts, passHeatText, roundsText } from '../../../server/wording/pass.ts';
import { heatChart, staircase } from '../../../server/wording/pass-chart.ts';
import { conditionName } from '../../../server/wording/words.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { nearClockText } from '../../format/time.ts';
import { Opens as OpensAct } from '../../parts/opens.tsx';
import { PassChartView } from '../../parts/pass-chart.tsx';
import { useShorter } from '../../parts/shorter.tsx';

type PassStatus = LiveJoint['assessment']['passes'][number];
type Open = (kind: 'pass details' | 'correct pass', pass: string) => void;

interface Props {
  readonly live: LiveJoint;
  readonly now: Instant;
  /** Where something can still be entered. */
  readonly open?: Open | undefined;
}

export function Passes({ live, now, open }: Props) {
  const { assessment } = live;
  const [passes, more] = useShorter(assessment.passes, 'passes');
  return (
    <section class="sheet" aria-labelledby="passes-heading">
      <div class="sheet-head">
        <h2 id="passes-heading">Passes</h2>
      </div>
      {assessment.passes.length === 0 ? (
        <p class="empty">
          No pass yet. When the arc is struck, press "Start pass": the temperatures of that moment are judged and kept.
        </p>
      ) : (
        <>
          <Charts live={live} />
          <div class="scroll-x">
            <table class="passes">
              <thead>
                <tr>
                  <th scope="col">Pass</th>
                  <th scope="col">Started, ended</th>
                  <th scope="col">Coldest at start</th>
                  <th scope="col">Interpass</th>
                  <th scope="col">Heat input</th>
                  <th scope="col">Judged</th>
                </tr>
              </thead>
              <tbody>
                {passes.map((pass) => (
                  <PassRow key={`${pass.pass} ${pass.startedAt}`} pass={pass} live={live} now={now} open={open} />
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
      {more}
      <Struck live={live} now={now} />
    </section>
  );
}

function Charts({ live: { assessment, joint } }: Pick<Props, 'live'>) {
  const { passes, limits, requirement } = assessment;
  const charts = [
    staircase(passes, limits, requirement.units, 460),
    heatChart(passes, joint.procedure?.heatInput, requirement.units, 460),
  ].filter((chart) => chart !== undefined);
  return (
    <div class="pass-charts">
      {charts.map((chart) => (
        <PassChartView key={chart.title} chart={chart} />
      ))}
    </div>
  );
}

function PassRow({ pass, live, now, open }: { readonly pass: PassStatus } & Props) {
  const { limits, requirement } = live.assessment;
  const { units } = requirement;
  const isHeatWrong = pass.heat.state === 'below' || pass.heat.state === 'above';
  const wrong = pass.minimum === 'not met' || pass.maximum === 'not met' || isHeatWrong || pass.outside.length > 0;
  return (
    <>
      <tr class={wrong ? 'wrong' : ''}>
        <th scope="row">
          {pass.pass}
          <span class="place">
            {[begun(pass.passKind), pass.welder, ...detailTexts(setUpOf(pass), units)].join(', ')}
          </span>
        </th>
        <td>
          {nearClockText(pass.startedAt, now)}
          <span class="place">{pass.endedAt === undefined ? 'running' : `to ${nearClockText(pass.endedAt, now)}`}</span>
          {pass.enteredAt - pass.startedAt > 1000 && (
            <span class="place">entered {nearClockText(pass.enteredAt, now)}</span>
          )}
        </td>
        <td>
          {pass.coldestAtStart === undefined
            ? 'not known'
            : handValueText(pass.coldestAtStart, units, { limit: limits.preheatMinimum })}
          <span class="place">{pass.coldestAtStart?.probe ?? ''}</span>
        </td>
        <td>
          {pass.interpass === undefined
            ? pass.maximum === 'not needed'
              ? 'not needed'
              : 'not known'
            : handValueText(pass.interpass, units, { limit: limits.interpassMaximum })}
          <span class="place">
            {pass.interpass === undefined
              ? ''
              : `${pass.interpass.probe}${pass.interpass.by === 'contact' ? ', by hand' : ''}`}
          </span>
        </td>
        <td>
          <span class={isHeatWrong ? 'loud' : ''}>{passHeatText(pass.heat, units)}</span>
          <span class="place">{detailTexts(runOf(pass), units).join(', ')}</span>
        </td>
        <td>
          Minimum {pass.minimum}
          {pass.maximum !== 'not needed' && `, maximum ${pass.maximum}`}
          {pass.outside.length > 0 && (
            <span class="place loud">
              begun outside: {pass.outside.map((id) => conditionName(id).toLowerCase()).join(', ')}
            </span>
          )}
          {open !== undefined && (
            <span class="row-buttons">
              {pass.heat.energy === undefined && pass.endedAt !== undefined && (
                <Opens kind="pass details" pass={pass.pass} open={open} text="Details" />
              )}
              <Opens kind="correct pass" pass={pass.pass} open={open} text="Correct" />
            </span>
          )}
        </td>
      </tr>
      {(pass.rounds !== undefined || pass.nextReadingAt !== undefined) && (
        <tr class="corrected">
          <td colSpan={6}>
            {pass.rounds !== undefined &&
              `Read ahead of the arc: ${roundsText(pass.rounds.slice(-roundsShown), limits.interpassMaximum, units, (at) => nearClockText(at, now))}. `}
            {pass.nextReadingAt !== undefined && `Next reading due by ${nearClockText(pass.nextReadingAt, now)}.`}
          </td>
        </tr>
      )}
      {pass.corrections?.map((each) => (
        <tr key={each.at} class="corrected">
          <td colSpan={6}>{correctionText(each, units, (at) => nearClockText(at, now))}</td>
        </tr>
      ))}
    </>
  );
}

const Opens = ({
  kind,
  pass,
  open,
  text,
}: {
  readonly kind: 'pass details' | 'correct pass';
  readonly pass: string;
  readonly open: Open;
  readonly text: string;
}) => (
  <OpensAct may={kind} opens={`${kind} ${pass}`} press={() => open(kind, pass)}>
    {text} <span class="unseen">pass {pass}</span>
  </OpensAct>
);

/** What was entered by a slip stays in sight. */
function Struck({ live: { assessment }, now }: Pick<Props, 'live' | 'now'>) {
  const { struckPasses = [], requirement } = assessment;
  return struckPasses.map((struck) => (
    <p key={`${struck.pass} ${struck.enteredAt}`} class="aside">
      <s>
        Pass {struck.pass}, {struck.passKind}, {struck.welder}, {nearClockText(struck.startedAt, now)}
        {struck.endedAt === undefined ? '' : ` to ${nearClockText(struck.endedAt, now)}`}
      </s>{' '}
      {struck.corrections
        .map((each) => correctionText(each, requirement.units, (at) => nearClockText(at, now)))
        .join(' ')}
    </p>
  ));
}

/** The newest; all of them stand in the report. */
const roundsShown = 6;

const setUpOf = ({ details: { layer, side, where, process, batch, revolutionSeconds } }: PassStatus) => ({
  revolutionSeconds,
  layer,
  side,
  where,
  process,
  batch,
});
const runOf = ({ details: { layer, side, where, process, batch, ...run } }: PassStatus) => run;
