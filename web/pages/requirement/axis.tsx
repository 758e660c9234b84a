/** All methods beside each other on one axis. What may govern is a full bar, a floor a bracket, a comparison a thin line. */
import type { TemperatureScale } from './scale.ts';

export function Axis({ scale, unit }: { readonly scale: TemperatureScale; readonly unit: string }) {
  const at = (celsius: number): string => `${((celsius - scale.low) / (scale.high - scale.low)) * 100}%`;
  if (scale.rows.length === 0)
    return <p class="notice">No method gives a number for this joint yet; what each needs is listed below.</p>;
  return (
    <figure class="scale" aria-label="All methods on one scale of temperature">
      <div class="scale-marks">
        {scale.marks.map((mark, index) => (
          <span key={mark.name} class={`scale-mark lane-${index}`} style={{ left: at(mark.celsius) }}>
            <span class={mark.celsius > (scale.low + scale.high) / 2 ? 'before' : ''}>{mark.text}</span>
          </span>
        ))}
      </div>
      <ul>
        {scale.rows.map((row) => (
          <li key={row.key}>
            <span>
              <strong>{row.title}</strong>, {row.parts.join(', ')}
            </span>
            <span class="scale-bar">
              {scale.ticks.map((tick) => (
                <i key={tick.text} style={{ left: at(tick.celsius) }} />
              ))}
              <span
                class={`scale-fill ${row.shape}${row.extended ? ' extended' : ''}`}
                style={{ width: at(row.celsius) }}
              />
              {scale.marks.map((mark) => (
                <b key={mark.name} style={{ left: at(mark.celsius) }} />
              ))}
            </span>
            <span class="scale-words">{row.words}</span>
          </li>
        ))}
      </ul>
      <div class="scale-ticks" aria-hidden="true">
        {scale.ticks.map((tick, index) => (
          <span key={tick.text} style={{ left: at(tick.celsius) }}>
            {tick.text}
            {index === scale.ticks.length - 1 && ` ${unit}`}
          </span>
        ))}
      </div>
      <figcaption class="aside">
        Full bar: may govern. Bar with an end: floor of the chosen code. Thin line: for comparison only. Hatched: beyond
        the validated range. The upright lines carry their names above.
      </figcaption>
    </figure>
  );
}
