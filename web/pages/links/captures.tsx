/** Captures that the station keeps: files that a supplier can read, and that can be played through the same judgement again. */
import type { CaptureRow } from '../../../server/screen/contract.ts';

export function Captures({ of }: { readonly of: readonly CaptureRow[] }) {
  if (of.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="captures-heading">
      <h2 id="captures-heading">Captures</h2>
      <p class="aside">
        All that went over a port, with its times. Play one again with the command replay; what comes of it is marked as
        replayed.
      </p>
      <ul class="plain-list">
        {of.map(({ name, bytes, isRunning }) => (
          <li key={name}>
            <a href={`/api/captures/${encodeURIComponent(name)}`} download>
              {name}
            </a>{' '}
            <span class="aside">
              {Math.max(1, Math.round(bytes / 1000))} kB{isRunning ? ', still running' : ''}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
