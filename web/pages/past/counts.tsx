/** Counts over what the question finds; what was measured, simulated, imported and so on each by itself. */
import { useSignal } from '@preact/signals';
import type { SourceStatistics, Statistics } from '../../../server/past/statistics.ts';
import { findingName, howCounted } from '../../../server/past/words.ts';
import { jointsText, shareText, timesInAllText, timesText } from '../../../server/wording/counts.ts';
import { severityText, sourceText, verdictHeadline } from '../../../server/wording/words.ts';
import { CountTable, VerdictTable } from './count-tables.tsx';
import { askCounts, counts, period, query } from './question.ts';
import { TrendChart } from './trend-chart.tsx';

export function Counts() {
  const view = counts.value;
  if (view === 'asking') return <p class="notice">The station counts.</p>;
  if (view === 'failed')
    return (
      <p class="notice loud" role="alert">
        The station did not answer.{' '}
        <button type="button" class="plain" onClick={() => void askCounts()}>
          Ask again
        </button>
      </p>
    );
  if (view.joints === 0) return <p class="empty">No joint to count: the question finds none.</p>;
  return (
    <section class="stack" aria-label="Counts">
      <p class="row wrap">
        <span role="status">{jointsText(view.joints)} counted.</span>
        <a class="button" href={`/api/past/statistics.csv?${query({ period: period.value })}`} download>
          Counts (CSV)
        </a>
        <label class="inline-label">
          By{' '}
          <select
            value={period.value}
            onChange={(event) => {
              period.value = event.currentTarget.value === 'week' ? 'week' : 'month';
            }}
          >
            <option value="month">month</option>
            <option value="week">week</option>
          </select>
        </label>
      </p>
      {view.sources.map((of) => (
        <OneSource key={of.source} of={of} view={view} />
      ))}
    </section>
  );
}

function OneSource({ of, view }: { readonly of: SourceStatistics; readonly view: Statistics }) {
  const first = view.sources[0]?.source === of.source;
  const open = useSignal(first);
  return (
    <details
      class="sheet counted"
      open={open.value}
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>
        {sourceText({ kind: of.source, detail: '' })} {jointsText(of.joints)}
      </summary>
      {open.value && <Figures of={of} period={view.period} />}
    </details>
  );
}

function Figures({ of, period }: { readonly of: SourceStatistics; readonly period: string }) {
  const { verdicts, heatToArc, holdLost, interpass, breaks } = of;
  return (
    <div class="stack">
      {of.notRead > 0 && (
        <p class="problem">
          {of.notRead} joints hold entries of a newer program, and are counted as far as they could be read.
        </p>
      )}
      <dl class="count-figures">
        {(['complies', 'does-not-comply', 'cannot-be-judged'] as const).map((verdict) => (
          <Figure
            key={verdict}
            name={verdictHeadline(verdict)}
            value={`${verdicts[verdict]} of ${verdicts.n} closed`}
          />
        ))}
        <Figure name="Open" value={`${of.open} of ${of.joints}`} />
        <Figure
          name="Heat on to first arc"
          value={timesText(heatToArc)}
          under={`${heatToArc.leftOut} left out`}
          how={howCounted.heatToArc}
        />
        <Figure
          name="Hold lost"
          value={shareText(holdLost)}
          under={timesInAllText(holdLost.times)}
          how={howCounted.holdLost}
        />
        <Figure
          name="Interpass above maximum"
          value={`${shareText(interpass)} passes`}
          under={`left out: ${interpass.noMaximum} without a maximum, ${interpass.notJudged} not judged`}
          how={howCounted.interpass}
        />
        <Figure
          name="With a declared break"
          value={shareText(breaks)}
          under={timesInAllText(breaks.times)}
          how={howCounted.breaks}
        />
      </dl>
      <p class="aside">
        {howCounted.verdicts} {howCounted.rates}
      </p>
      {of.byPeriod.length > 1 && <TrendChart rows={of.byPeriod} period={period} />}
      <VerdictTable
        title={`By ${period}`}
        how={howCounted.byPeriod}
        rows={of.byPeriod}
        more={{
          names: ['Interpass above maximum', 'Heat on to first arc'],
          cells: (index) => {
            const row = of.byPeriod[index]!;
            return [shareText(row.interpass), timesText(row.heatToArc)];
          },
        }}
      />
      <VerdictTable title="By procedure" how={howCounted.byProcedure} rows={of.byProcedure} />
      <VerdictTable title="By steel" how={howCounted.bySteel} rows={of.bySteel} />
      <VerdictTable title="By heat" how={howCounted.byHeat} rows={of.byHeat} />
      <CountTable
        title="Findings"
        how={howCounted.findings}
        columns={['Finding', 'Kind', 'Joints', 'Times']}
        rows={of.findings.map(({ kind, severity, joints, times }) => [
          findingName(kind),
          severityText(severity),
          `${joints} of ${of.joints}`,
          `${times}`,
        ])}
      />
      <CountTable
        title="Faults of probes"
        how={howCounted.probes}
        columns={['Channel or wire', 'Joints', 'Times', 'What']}
        rows={of.probes.map(({ what, name, faulty, joints, times, kinds }) => [
          what === 'wire' ? `Wire ${name}` : name,
          `${faulty} of ${joints}`,
          `${times}`,
          kinds.map(findingName).join('; '),
        ])}
      />
      <CountTable
        title="Passes by welder"
        how={howCounted.welders}
        columns={['Welder', 'With a limit not kept', 'Joints']}
        rows={of.welders.map(({ name, passes, joints }) => [name, shareText(passes), `${joints}`])}
      />
    </div>
  );
}

interface FigureProps {
  readonly name: string;
  readonly value: string;
  readonly under?: string;
  readonly how?: string;
}

const Figure = ({ name, value, under, how }: FigureProps) => (
  <div>
    <dt>{name}</dt>
    <dd>
      <b>{value}</b>
      {under !== undefined && <span class="place">{under}</span>}
      {how !== undefined && <span class="place">{how}</span>}
    </dd>
  </div>
);
