/**
 * The chart of one joint: keeps its tracks, asks for history whenever another stretch or a finer step is
 * wanted, folds live readings in, and draws at most once a second. Chart.js is loaded when it is first needed.
 */

import { useSignal, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Instant, MilliCelsius } from '../../server/measure/quantity.ts';
import type { HistoryView, LiveReading } from '../../server/screen/contract.ts';
import { uncertaintyText } from '../../server/wording/instrument.ts';
import { degreeUnit } from '../../server/wording/temperature.ts';
import { asJudged, correctionsKey } from '../feed/as-judged.ts';
import { getJson } from '../feed/http.ts';
import type { LiveJoint } from '../feed/live-joint.ts';
import { fetchPart } from '../feed/part-of-page.ts';
import { zoneText } from '../format/time.ts';
import type { JointFeed } from '../state/joint.ts';
import { serverSecond } from '../state/station.ts';
import { shown } from '../state/theme.ts';
import { bandedProbe } from './band.ts';
import { ChartButtons } from './buttons.tsx';
import type { Drawing } from './draw.ts';
import { historyAddress, pointsFor } from './history.ts';
import { inksOf } from './inks.ts';
import { marksOf } from './marks.ts';
import { pictureOf } from './picture.ts';
import { TableBehind } from './table-behind.tsx';
import { fromHistory, longest, type Tracks, takeReading } from './tracks.ts';
import { stretchOf, type Window } from './window.ts';

interface Props {
  readonly feed: JointFeed;
  readonly live: LiveJoint;
  readonly openedAt: Instant;
  /** A closed joint ends where it was closed: its present is that instant. */
  readonly closedAt: Instant | undefined;
}

export function JointChart({ feed, live, openedAt, closedAt }: Props) {
  const { joint, periodMilliseconds } = live;
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const drawing = useRef<Drawing | undefined>(undefined);
  const tracks = useRef<Tracks | undefined>(undefined);
  const window = useSignal<Window>({ kind: 'follow', span: closedAt === undefined ? 15 * 60_000 : 'all' });
  const hidden = useSignal<ReadonlySet<string>>(initiallyHidden(live));
  const size = useSignal({ width: 900, height: 380 });
  /** Grows when the tracks were replaced or the drawing came to life: there is something new to draw. */
  const changed = useSignal(0);
  const failed = useSignal(false);
  const undrawn = useSignal(false);
  const points = pointsFor(size.value.width);
  const probes = useMemo(() => joint.probes.map(({ id, use }) => ({ probe: id, use })), [joint]);
  const corrections = correctionsKey(live.assessment);
  const now = (): number => closedAt ?? serverSecond.peek() ?? live.assessment.at;

  useEffect(() => {
    const stopFetching = fetchPart(() => import('./draw.ts'), {
      here({ createDrawing }) {
        undrawn.value = false;
        if (canvas.current === null) return;
        drawing.current = createDrawing(canvas.current);
        changed.value += 1;
      },
      failed() {
        undrawn.value = true;
      },
    });
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined) size.value = { width: entry.contentRect.width, height: entry.contentRect.height };
    });
    if (box.current !== null) watch.observe(box.current);
    return () => {
      stopFetching();
      watch.disconnect();
      drawing.current?.destroy();
      drawing.current = undefined;
    };
  }, []);

  // History: asked anew for another window, another width, after a break, for readings that came late, and when live ones have made the tracks too long.
  const renewed = useSignal(0);
  useEffect(() => {
    let gone = false;
    const early: LiveReading[] = [];
    const stretch = stretchOf(window.value, openedAt, now());
    let waiting = true;
    let late = false;
    const askedAt = performance.now();
    const take = (into: Tracks, reading: LiveReading): boolean => {
      const current = feed.live.peek();
      const known = current.kind === 'there' ? current.value : live;
      const uncertainty = known.assessment.probes.find(({ probe }) => probe === reading.probe)?.expandedUncertainty;
      return takeReading(into, asJudged(reading, known), uncertainty);
    };
    const stop = feed.listen((readings) => {
      const mine = tracks.current;
      if (waiting) early.push(...readings);
      if (mine === undefined) return;
      for (const reading of readings) if (!take(mine, reading)) late = true;
      const again = longest(mine) > 2.5 * points || (late && performance.now() - askedAt > lateAskedAfter);
      if (!waiting && again) renewed.value += 1;
    });
    const margin = window.value.kind === 'follow' ? 0 : (stretch.to - stretch.from) / 2;
    const asked = { from: Math.max(openedAt, stretch.from - margin), to: Math.min(now(), stretch.to + margin) };
    void getJson<HistoryView>(historyAddress(joint.id, asked, points)).then((answer) => {
      if (gone) return;
      waiting = false;
      failed.value = answer.kind !== 'ok';
      if (answer.kind !== 'ok') return;
      const fresh = fromHistory(answer.value, periodMilliseconds);
      for (const reading of early) take(fresh, reading);
      tracks.current = fresh;
      changed.value += 1;
    });
    return () => {
      gone = true;
      stop();
    };
  }, [
    window.value,
    points,
    feed,
    feed.mended.value,
    renewed.value,
    openedAt,
    periodMilliseconds,
    joint.id,
    corrections,
  ]);

  useSignalEffect(() => {
    changed.value;
    const at = closedAt ?? serverSecond.value ?? live.assessment.at;
    const mine = tracks.current;
    if (mine === undefined || drawing.current === undefined) return;
    const current = feed.live.peek();
    const assessment = current.kind === 'there' ? current.value.assessment : live.assessment;
    const picture = pictureOf({
      tracks: mine,
      probes,
      hidden: hidden.value,
      stretch: stretchOf(window.value, openedAt, at),
      marks: marksOf(assessment, feed.timeline.value),
      theme: shown.value,
      width: size.value.width,
      height: size.value.height,
      units: assessment.requirement.units,
      banded: bandedProbe(
        probes.map(({ probe }) => probe).filter((probe) => !hidden.value.has(probe)),
        assessment,
      ),
    });
    drawing.current.draw(picture, inksOf());
  });

  return (
    <section class="sheet chart" aria-labelledby="chart-heading">
      <div class="sheet-head">
        <h2 id="chart-heading">Temperatures over time</h2>
        <p class="aside">
          {degreeUnit(live.assessment.requirement.units)}, times in {zoneText(now() as Instant)}
        </p>
      </div>
      <ChartButtons
        now={now}
        closed={closedAt !== undefined}
        window={window}
        openedAt={openedAt}
        probes={probes}
        hidden={hidden}
        theme={shown.value}
      />
      {failed.value && (
        <p class="notice" role="status">
          The history could not be fetched; only readings since this page was opened are drawn. Choose the span again to
          ask once more.
        </p>
      )}
      {undrawn.value && (
        <p class="notice" role="status">
          What draws the chart could not be fetched from the station; it is asked for again every few seconds. The table
          below holds the same.
        </p>
      )}
      <div class="chart-box" ref={box}>
        <canvas ref={canvas} role="img" aria-label="Chart of the temperatures. The table below holds the same." />
      </div>
      <BandWords live={live} hidden={hidden.value} />
      <TableBehind
        tracks={() => tracks.current}
        probes={probes.map(({ probe }) => probe)}
        stretch={() => stretchOf(window.value, openedAt, now())}
        limits={Object.values(live.assessment.limits) as MilliCelsius[]}
        units={live.assessment.requirement.units}
        arrived={changed.value}
      />
    </section>
  );
}

/** What the band about one of the lines is, and whether corrections are in the lines. */
function BandWords({ live, hidden }: { readonly live: LiveJoint; readonly hidden: ReadonlySet<string> }) {
  const { probes, requirement } = live.assessment;
  const drawn = live.joint.probes.map(({ id }) => id).filter((id) => !hidden.has(id));
  const banded = probes.find(({ probe }) => probe === bandedProbe(drawn, live.assessment));
  const width = banded?.expandedUncertainty;
  const isCorrected = probes.some(({ correction }) => correction !== undefined);
  if (width === undefined && !isCorrected) return null;
  return (
    <p class="hint">
      {width !== undefined &&
        `The dotted band about ${banded!.probe} is its uncertainty, now ±${uncertaintyText(width, requirement.units)} (k = 2). `}
      {isCorrected &&
        'The lines have the corrections of the calibrations in them, as they are judged; the CSV holds both.'}
    </p>
  );
}

/** Late readings come in bursts; the history is asked again at most this often, milliseconds. */
const lateAskedAfter = 5_000;

/** What is not on the part is off at first: a heater's own temperature would flatten everything else. */
const initiallyHidden = ({ joint }: LiveJoint): ReadonlySet<string> =>
  new Set(
    joint.probes
      .filter(({ use }) => use === 'heater control' || use === 'ambient' || use === 'spare')
      .map(({ id }) => id),
  );
