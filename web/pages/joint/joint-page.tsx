/** One joint, live: may I start, what is it doing, what was done. Tablet first. */

import { useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { isBeforeHeat } from '../../../server/judgement/phases/phase-kind.ts';
import type { TimelineEvent } from '../../../server/screen/contract.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { sourceText } from '../../../server/wording/words.ts';
import { JointChart } from '../../chart/chart.tsx';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { alarmedPlaces } from '../../parts/alarm/model.ts';
import { DataBanners } from '../../parts/banners.tsx';
import { NotLoaded, useLoaded } from '../../parts/lazy.tsx';
import { Section } from '../../parts/section/section.tsx';
import { useTitle } from '../../parts/title.ts';
import { ThroughThickness } from '../../parts/wall/through.tsx';
import { followJoint, type JointFeed } from '../../state/joint.ts';
import { probeRows } from '../../state/probe-rows.ts';
import { outsideNow, standingOf } from '../../state/standing.ts';
import { contact, serverSecond, station } from '../../state/station.ts';
import { entryLine } from '../record/entry-line.ts';
import type { OpenSheet } from './act-draft.ts';
import { Actions } from './actions.tsx';
import { AfterWelding } from './after.tsx';
import { AheadBlock } from './ahead.tsx';
import { Alarms, QuietAlarms } from './alarms.tsx';
import { Breaks } from './breaks.tsx';
import { CallMe } from './call-me.tsx';
import { Closed } from './closed.tsx';
import { FigureStrip } from './figure-strip.tsx';
import { Findings } from './findings.tsx';
import { Instruments } from './instruments.tsx';
import { Passes } from './passes.tsx';
import { ProbeTable } from './probe-table.tsx';
import { ProcedureNote } from './procedure-note.tsx';
import { Readiness } from './readiness.tsx';
import { RecordHead } from './record-head.tsx';
import { Repairs } from './repairs.tsx';
import { RequiredPreheat } from './required-preheat.tsx';
import { SourceBanner } from './source-banner.tsx';
import { WithoutReadings } from './without-readings.tsx';

export function JointPage({ joint }: { readonly joint: string }) {
  const feed = useMemo(() => followJoint(joint), [joint]);
  useEffect(() => () => feed.stop(), [feed]);
  const state = feed.live.value;
  if (state.kind === 'loading') return <p class="notice">Asking the station for this joint.</p>;
  if (state.kind === 'failed') {
    return (
      <section class="sheet">
        <h1>{state.why === 'not found' ? 'No such joint' : 'The joint cannot be shown'}</h1>
        <p>
          {state.why === 'not found'
            ? `The station has no joint "${joint}". Look for it in the list of joints.`
            : 'The station did not answer. This page asks again every 30 s.'}
        </p>
      </section>
    );
  }
  return <OneJoint live={state.value} feed={feed} />;
}

function OneJoint({ live, feed }: { readonly live: LiveJoint; readonly feed: JointFeed }) {
  const { joint, assessment } = live;
  const now = serverSecond.value;
  const standing = standingOf(live, contact.value, station.value);
  const rows = probeRows(live, now);
  const byProbe = new Map(rows.map((row) => [row.probe, row]));
  const closed = assessment.phase === 'closed';
  useTitle(standing.head, joint.title);
  const said = useSignal('');
  const open = useSignal<OpenSheet | undefined>(undefined);
  const openProbe = (probe: string): void => {
    open.value = { kind: 'probe', probe };
  };
  const openedAt = useMemo(() => openedAtOf(feed.timeline.value) ?? assessment.at, [feed.timeline.value.length === 0]);
  const done = (act: Act): void => {
    said.value = `Recorded: ${entryLine({ at: now ?? assessment.at, seq: 0, who: '', kind: act.kind, body: act }, assessment.requirement.units)}.`;
    void feed.refresh();
  };
  const { readingsRemoved } = live;
  if (readingsRemoved !== undefined)
    return (
      <article class="joint" aria-labelledby="joint-title">
        <JointHead joint={joint} />
        <SourceBanner live={live} words={sourceText(assessment.source)} done={done} />
        <WithoutReadings
          live={{ ...live, readingsRemoved }}
          now={now ?? assessment.at}
          changed={() => void feed.refresh()}
        />
      </article>
    );
  return (
    <article class={`joint${standing.tone === 'unknown' ? ' unreliable' : ''}`} aria-labelledby="joint-title">
      <JointHead joint={joint} />
      <SourceBanner live={live} words={sourceText(assessment.source)} done={done} />
      {live.wiring?.map((message) => (
        <p key={message} class="banner warn" role="status">
          {message}
        </p>
      ))}
      <DataBanners live={live} />
      <ProcedureNote
        live={live}
        open={() => {
          open.value = { kind: 'change over' };
        }}
      />
      <Alarms live={live} changed={() => void feed.refresh()} />
      <div class="first">
        <Readiness live={live} standing={standing} />
        {assessment.phase === 'closed' ? (
          <Closed live={live} />
        ) : (
          <Actions
            live={live}
            outside={outsideNow(standing, assessment)}
            known={standing.tone !== 'unknown'}
            open={open}
            done={done}
          />
        )}
      </div>
      <CallMe live={live} />
      <p class="said" role="status">
        {said.value}
      </p>
      {!closed && <AheadBlock assessment={assessment} old={standing.tone === 'unknown'} />}
      {!closed && <FigureStrip assessment={assessment} now={now} old={standing.tone === 'unknown'} />}
      <div class="second">
        <section class="sheet" aria-labelledby="section-heading">
          <div class="sheet-head">
            <h2 id="section-heading">Where</h2>
          </div>
          {closed ? (
            <Section joint={joint} />
          ) : (
            <Section joint={joint} rows={byProbe} heat={assessment.heat} alarms={alarmedPlaces(assessment.alarms)} />
          )}
          {!closed && <OffPart rows={rows.filter((row) => row.place === '')} />}
        </section>
        {closed ? (
          <div class="stack">
            <Findings assessment={assessment} now={now ?? assessment.at} />
            <RecordHead live={live} changed={() => void feed.refresh()} />
          </div>
        ) : (
          <ProbeTable rows={rows} open={openProbe} />
        )}
      </div>
      <ThroughThickness live={live} rows={byProbe} />
      {isBeforeHeat(assessment.phase) && (
        <Planning joint={joint} minimumCelsius={assessment.requirement.governing.preheatMinimumCelsius} />
      )}
      <JointChart
        key={closed ? 'closed' : 'open'}
        feed={feed}
        live={live}
        openedAt={openedAt}
        closedAt={closed ? (closedAtOf(feed.timeline.value) ?? assessment.at) : undefined}
      />
      <AfterWelding assessment={assessment} />
      <Breaks assessment={assessment} />
      <Passes
        live={live}
        now={now ?? assessment.at}
        {...(closed
          ? {}
          : {
              open: (kind, pass) => {
                open.value = { kind, pass };
              },
            })}
      />
      <Repairs live={live} />
      <Instruments live={live} openedAt={openedAt} done={done} />
      <QuietAlarms live={live} changed={() => void feed.refresh()} />
      <div class="second">
        <RequiredPreheat live={live} />
        {!closed && (
          <div class="stack">
            <Findings assessment={assessment} now={now ?? assessment.at} openProbe={openProbe} />
            <RecordHead live={live} changed={() => void feed.refresh()} />
          </div>
        )}
      </div>
    </article>
  );
}

const JointHead = ({ joint }: Pick<LiveJoint, 'joint'>) => (
  <div class="joint-head">
    <h1 id="joint-title">{joint.title}</h1>
    <p class="aside">{[joint.id, joint.workshop, joint.drawing].filter((each) => each !== undefined).join(' · ')}</p>
  </div>
);

/** Until the heat goes on. What it is computed with comes along only then. */
function Planning(props: { readonly joint: LiveJoint['joint']; readonly minimumCelsius: number | undefined }) {
  const planning = useLoaded(() => import('../requirement/plan.tsx'));
  if (planning === 'loading' || planning === 'failed') return <NotLoaded state={planning} />;
  return <planning.PlanView {...props} compact />;
}

const OffPart = ({ rows }: { readonly rows: ReturnType<typeof probeRows> }) =>
  rows.length === 0 ? null : (
    <p class="off-part">
      Not on the part:{' '}
      {rows.map((row) => `${row.probe} ${row.state === 'stale' ? `${row.age} old` : row.value}`).join(', ')}.
    </p>
  );

const openedAtOf = (timeline: readonly TimelineEvent[]): TimelineEvent['at'] | undefined =>
  timeline.find((event) => event.kind === 'opened')?.at ?? timeline[0]?.at;

const closedAtOf = (timeline: readonly TimelineEvent[]): TimelineEvent['at'] | undefined =>
  timeline.findLast((event) => event.kind === 'close')?.at;
