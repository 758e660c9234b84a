/** What the station reads already, how it goes, and the way to take it away. */
import { useSignal } from '@preact/signals';
import { station } from '../../state/station.ts';
import type { InstrumentsDesk } from './use-instruments.ts';

interface KeptProps {
  readonly desk: InstrumentsDesk;
  /** With its file, so that it can be changed and kept again. */
  readonly onTakenAway: (file: unknown) => void;
}

export function Kept({ desk, onTakenAway }: KeptProps) {
  const sure = useSignal<string | undefined>(undefined);
  const connections = desk.view?.connections ?? [];
  if (connections.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="kept">
      <h2 id="kept">Read by this station</h2>
      <ul>
        {connections.map(({ name, way, boards, place, fixed, file }) => (
          <li key={name}>
            <strong>{name}</strong>: {way}, {place}
            <ul>
              {boards.map((board) => (
                <li key={board}>{boardText(board)}</li>
              ))}
            </ul>
            {fixed ? (
              <span class="aside">Given at the start with --connect.</span>
            ) : sure.value === name ? (
              <button
                type="button"
                class="act"
                onClick={async () => {
                  sure.value = undefined;
                  if (await desk.takeAway(name)) onTakenAway(file);
                }}
              >
                Yes, take {name} away: joints lose its readings
              </button>
            ) : (
              <button
                type="button"
                onClick={() => {
                  sure.value = name;
                }}
              >
                Take away
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

const boardText = (board: string): string => {
  const link = station.value?.links.find((each) => each.board === board);
  if (link === undefined) return `${board}: nothing read yet`;
  const wrong = (link.errors ?? []).map(({ what, times }) => `${what} ${times}`).join(', ');
  const state = link.state === 'open' ? 'is read' : link.state === 'lost' ? 'lost' : 'not read';
  return `${board}: ${state}; good ${link.linesGood}${wrong === '' ? '' : `; ${wrong}`}${link.lastError === undefined ? '' : ` (last: ${link.lastError})`}`;
};
