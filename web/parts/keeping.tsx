/** When the record was last looked at as a whole, and copied; what is wrong is told loudly and with what to do. */
import {
  cardsMadeAgainText,
  cardsText,
  checkedText,
  copiedText,
  whatToDoNotIntact,
} from '../../server/wording/keeping.ts';
import { dayClockText } from '../format/time.ts';
import { station } from '../state/station.ts';

export function Keeping() {
  const keeping = station.value?.keeping;
  if (keeping === undefined) return null;
  const { check, copy } = keeping;
  return (
    <section aria-label="The record as a whole">
      {check === undefined && <p class="aside">The record has not been checked since the station was started.</p>}
      {check?.fault !== undefined && (
        <p class="notice loud" role="alert">
          <strong>{checkedText(dayClockText(check.at), check)}</strong> {whatToDoNotIntact}
        </p>
      )}
      {check !== undefined && check.fault === undefined && (
        <p class="aside">{checkedText(dayClockText(check.at), check)}</p>
      )}
      {check?.cards !== undefined && (
        <p class="notice" role="alert">
          {cardsText(check.cards)} {cardsMadeAgainText}
        </p>
      )}
      {copy?.failed !== undefined && (
        <p class="notice loud" role="alert">
          <strong>{copiedText(dayClockText(copy.at), copy)}</strong>
        </p>
      )}
      {copy?.folder !== undefined && <p class="aside">{copiedText(dayClockText(copy.at), copy)}</p>}
    </section>
  );
}
