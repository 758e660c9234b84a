/** Verdicts of closed joints over the months or weeks, as columns; the table below it holds the same numbers. */
import { BarController, BarElement, CategoryScale, Chart, LinearScale } from 'chart.js';
import { useEffect, useRef } from 'preact/hooks';
import { periodsBetween } from '../../../server/past/period.ts';
import type { Row } from '../../../server/past/statistics.ts';
import { verdictHeadline } from '../../../server/wording/words.ts';
import { inksOf } from '../../chart/inks.ts';
import { theme } from '../../state/theme.ts';

Chart.register(BarController, BarElement, CategoryScale, LinearScale);

/** Okabe and Ito: told apart by everybody, on light ground and dark. */
const colours = { complies: '#0072b2', 'does-not-comply': '#d55e00', 'cannot-be-judged': '#cc79a7' } as const;
const verdicts = ['complies', 'does-not-comply', 'cannot-be-judged'] as const;

export function TrendChart({ rows, period }: { readonly rows: readonly Row[]; readonly period: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (canvas.current === null) return;
    const inks = inksOf();
    // A month in which nothing was closed has its place too: else the columns would tell another time.
    const names = periodsBetween(rows[0]?.name ?? '', rows.at(-1)?.name ?? '');
    const byName = new Map(rows.map((row) => [row.name, row]));
    const ticks = { color: inks.faint, font: { family: inks.font, size: 13 } };
    const chart = new Chart(canvas.current, {
      type: 'bar',
      data: {
        labels: names,
        datasets: verdicts.map((verdict) => ({
          label: verdictHeadline(verdict),
          data: names.map((name) => byName.get(name)?.[verdict] ?? 0),
          backgroundColor: colours[verdict],
          borderColor: inks.ground,
          borderWidth: 1,
          stack: 'verdicts',
        })),
      },
      options: {
        animation: false,
        responsive: true,
        maintainAspectRatio: false,
        events: [],
        scales: {
          x: { stacked: true, ticks, grid: { display: false } },
          y: {
            stacked: true,
            beginAtZero: true,
            ticks: { ...ticks, precision: 0 },
            grid: { color: inks.grid },
          },
        },
      },
    });
    return () => chart.destroy();
  }, [rows, theme.value]);
  return (
    <figure class="trend">
      <figcaption>
        Closed joints by {period}:{' '}
        {verdicts.map((verdict) => (
          <span key={verdict} class="swatch">
            <i style={{ background: colours[verdict] }} /> {verdictHeadline(verdict).toLowerCase()}
          </span>
        ))}
      </figcaption>
      <div class="trend-box">
        <canvas
          ref={canvas}
          role="img"
          aria-label={`Closed joints by ${period} and verdict; the table below holds the numbers`}
        />
      </div>
    </figure>
  );
}
