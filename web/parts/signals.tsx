/** What lamp, horn and permission of each board say, and whether the board does so. Only where the station drives them. */
import { drivenText, noInterlock, notFollowed } from '../../server/wording/signal.ts';
import { station } from '../state/station.ts';

export function Signals() {
  const boards = station.value?.signals;
  if (boards === undefined) return null;
  return (
    <section class="sheet signals" aria-labelledby="signals-heading">
      <div class="sheet-head">
        <h2 id="signals-heading">Lamp, horn and permission</h2>
      </div>
      {boards.length === 0 && (
        <p class="empty">No board is heard. Each that is heard stands here with what it shows.</p>
      )}
      <ul class="plain-list">
        {boards.map((board) => (
          <li key={board.board}>
            <strong>{board.board}</strong>: {drivenText(board)}.
            {notFollowed(board.outputs).map((text) => (
              <p key={text} role="alert">
                <strong>{text}</strong>
              </p>
            ))}
          </li>
        ))}
      </ul>
      <p class="hint">{noInterlock}</p>
    </section>
  );
}
