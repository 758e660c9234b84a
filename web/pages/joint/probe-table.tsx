/** All probes in one table: value, trend, age, place. */
import { Glyph } from '../../parts/glyph.tsx';
import type { ProbeRow } from '../../state/probe-rows.ts';

export function ProbeTable({
  rows,
  open,
}: {
  readonly rows: readonly ProbeRow[];
  /** What can be done about a probe. */
  readonly open: (probe: string) => void;
}) {
  return (
    <section class="sheet" aria-labelledby="probes-heading">
      <div class="sheet-head">
        <h2 id="probes-heading">Probes</h2>
      </div>
      {rows.length === 0 ? (
        <p class="empty">No probe is fitted. Correct the joint to add the thermocouples and their places.</p>
      ) : (
        <div class="scroll-x">
          <table class="probes">
            <thead>
              <tr>
                <th scope="col">Probe</th>
                <th scope="col" class="number">
                  Now
                </th>
                <th scope="col">Trend, age</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.probe} class={`${row.state}${row.beyond === 'above limit' ? ' beyond' : ''}`}>
                  <th scope="row">
                    <button
                      type="button"
                      class="name"
                      data-opens={`probe ${row.probe}`}
                      onClick={() => open(row.probe)}
                    >
                      {row.probe}
                      <span class="unseen">what can be done about it</span>
                    </button>
                    {row.mark !== undefined && <span class="tag">{row.mark}</span>}
                    <span class="place">
                      {row.use}
                      {row.place === '' ? '' : `, ${row.place}`}
                    </span>
                    {row.atAmbient !== undefined && <span class="place loud">At ambient: {row.atAmbient}</span>}
                  </th>
                  <td class="number value">
                    {row.value}
                    {row.plusMinus !== undefined && <span class="before">{row.plusMinus}</span>}
                    {row.before !== undefined && <span class="before">last {row.before}</span>}
                    {row.twin !== undefined && <span class="before">{row.twin}</span>}
                    {row.state === 'distrusted' && <span class="before">not trusted</span>}
                    {row.beyond === 'above limit' && <span class="before">above limit</span>}
                  </td>
                  <td class="trend">
                    {row.direction !== 'unknown' && (
                      <>
                        <Glyph name={row.direction} size={16} /> {row.trend.replace(/^(rising|falling) /, '')}
                      </>
                    )}
                    <span class={row.state === 'stale' ? 'age old' : 'age'}>
                      {row.age === 'never' ? 'never heard' : `${row.age} old`}
                    </span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
