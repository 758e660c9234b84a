/** What must not be overlooked on any page: no word from the station, not recording, a lost board, a demonstration. */

import { begun } from '../../server/wording/list.ts';
import { route } from '../state/route.ts';
import { blindSentence } from '../state/standing.ts';
import { contact, station } from '../state/station.ts';
import { Glyph } from './glyph.tsx';

/** The station's cause as a sentence of its own. */
const sentenceOf = (because: string | undefined): string => {
  if (because === undefined || because === '') return 'The station cannot write.';
  return `${begun(because)}${/[.!?]$/.test(because) ? '' : '.'}`;
};

export function StationBanners() {
  const now = contact.value;
  const view = station.value;
  const blind = now.kind === 'blind' || (now.kind === 'never heard' && now.forMilliseconds > 3_000);
  return (
    <div class="banners">
      {blind && (
        <p class="banner stop" role="alert">
          <Glyph name="blind" />
          <strong>{blindSentence(now.forMilliseconds)}</strong>
        </p>
      )}
      {view?.recording === false && (
        <p class="banner stop" role="alert">
          <Glyph name="alarm" />
          <span>
            <strong>NOT RECORDING.</strong> {sentenceOf(view.notRecordingBecause)} Nothing that happens now is kept:
            write it down by hand.
          </span>
        </p>
      )}
      {view?.demonstration === true && route.value.page !== 'joint' && (
        <p class="banner mark">
          <strong>Demonstration.</strong> The temperatures are made by software. {view.remark ?? ''}
        </p>
      )}
      {view?.links
        .filter((link) => link.state === 'lost' || link.state === 'refused')
        .map((link) => (
          <p class="banner warn" role="alert" key={link.port}>
            <Glyph name="link" />
            <span>
              <strong>
                {link.state === 'lost' ? 'No connection to' : 'Cannot open'} {link.board ?? link.port}.
              </strong>{' '}
              {link.advice ?? `Check the cable at ${link.port}.`}
            </span>
          </p>
        ))}
    </div>
  );
}
