/** Instruments that a restored record brought along: none is read until somebody has seen what it reads here, and keeps it. */
import type { InstrumentsDesk } from './use-instruments.ts';

export function Waiting({ desk, tryOut }: { readonly desk: InstrumentsDesk; readonly tryOut: (text: string) => void }) {
  const waiting = desk.view?.waiting ?? [];
  if (waiting.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="waiting">
      <h2 id="waiting">Set up before, and not read yet</h2>
      <p>
        They came with a record that was put back. A port or an address may lead to another device on this machine: try
        each, see that it reads what it should, and keep it.
      </p>
      <ul>
        {waiting.map(({ name, text, was }) => (
          <li key={name}>
            <strong>{name}</strong>: {was ?? 'its file cannot be understood; try it to see why'}
            <div class="row wrap">
              <button type="button" class="act" onClick={() => tryOut(text)}>
                Try {name}
              </button>
              <button type="button" onClick={() => void desk.leaveOut(name)}>
                Leave {name} out
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
