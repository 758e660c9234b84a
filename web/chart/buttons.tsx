/** Span, zoom and what is drawn: every move of the chart has its button. */
import type { Signal } from '@preact/signals';
import { useText as wordOfUse } from '../../server/wording/words.ts';
import type { ChartProbe } from './picture.ts';
import { lineStyle } from './series-style.ts';
import { moved, spans, type Window, zoomed } from './window.ts';

interface Props {
  readonly window: Signal<Window>;
  readonly hidden: Signal<ReadonlySet<string>>;
  readonly openedAt: number;
  /** The station's time, or the end of a closed joint. */
  readonly now: () => number;
  readonly closed: boolean;
  readonly probes: readonly ChartProbe[];
  readonly theme: 'light' | 'dark';
}

export function ChartButtons({ window, hidden, openedAt, now, closed, probes, theme }: Props) {
  const at = window.value;
  const toggle = (probe: string): void => {
    const next = new Set(hidden.value);
    if (!next.delete(probe)) next.add(probe);
    hidden.value = next;
  };
  return (
    <div class="chart-buttons">
      <fieldset class="strip">
        <legend class="unseen">Span</legend>
        {spans.map(({ label, span }) => (
          <button
            type="button"
            key={label}
            aria-pressed={at.kind === 'follow' && at.span === span}
            onClick={() => {
              window.value = { kind: 'follow', span };
            }}
          >
            {label}
          </button>
        ))}
      </fieldset>
      <fieldset class="strip">
        <legend class="unseen">Move and zoom</legend>
        <button
          type="button"
          aria-label="Earlier"
          onClick={() => {
            window.value = moved(at, -1, openedAt, now());
          }}
        >
          ‹
        </button>
        <button
          type="button"
          aria-label="Zoom in"
          onClick={() => {
            window.value = zoomed(at, 0.5, openedAt, now());
          }}
        >
          +
        </button>
        <button
          type="button"
          aria-label="Zoom out"
          onClick={() => {
            window.value = zoomed(at, 2, openedAt, now());
          }}
        >
          −
        </button>
        <button
          type="button"
          aria-label="Later"
          disabled={at.kind === 'follow'}
          onClick={() => {
            window.value = moved(at, 1, openedAt, now());
          }}
        >
          ›
        </button>
      </fieldset>
      {!closed && (
        <button
          type="button"
          class="plain"
          aria-pressed={at.kind === 'follow'}
          onClick={() => {
            const length = at.kind === 'fixed' ? at.to - at.from : at.span;
            window.value = { kind: 'follow', span: length };
          }}
        >
          {at.kind === 'follow' ? 'Following live' : 'Follow live'}
        </button>
      )}
      <fieldset class="strip probes-shown">
        <legend class="unseen">Probes drawn</legend>
        {probes.map(({ probe, use }, index) => (
          <button
            type="button"
            key={probe}
            aria-pressed={!hidden.value.has(probe)}
            title={wordOfUse(use)}
            onClick={() => toggle(probe)}
          >
            <svg width="20" height="10" aria-hidden="true">
              <line
                x1="0"
                y1="5"
                x2="20"
                y2="5"
                stroke={lineStyle(index, use, theme).colour}
                stroke-width="3"
                stroke-dasharray={lineStyle(index, use, theme).dash.join(' ')}
              />
            </svg>
            {probe}
          </button>
        ))}
      </fieldset>
    </div>
  );
}
