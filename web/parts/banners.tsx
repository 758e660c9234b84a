/** What must not be overlooked on any page: what the page does not see, a lost board, a demonstration. */
import { useRef } from 'preact/hooks';
import type { Instant } from '../../server/measure/quantity.ts';
import type { LiveJoint } from '../feed/live-joint.ts';
import { clockMinuteText } from '../format/time.ts';
import { type Blind, dataBlindness } from '../state/blindness.ts';
import { calls, drop } from '../state/calls.ts';
import { jointAddress, linksAddress, route } from '../state/route.ts';
import { endsSoon, stay } from '../state/sign-on.ts';
import { contact, monotonic, station, unseen } from '../state/station.ts';
import { unreadWords } from '../state/unread-links.ts';
import { Glyph, type GlyphName } from './glyph.tsx';

const glyphs: Readonly<Record<Blind['kind'], GlyphName>> = {
  'line broken': 'link',
  'no word': 'blind',
  'not recording': 'alarm',
  'clocks apart': 'wait',
  'clock stepped': 'wait',
  'was away': 'blind',
  'no data': 'unmet',
  'old data': 'wait',
};

function BlindBanner({ blind }: { readonly blind: Blind }) {
  return (
    <p class={`banner ${blind.level}`} role="alert">
      <Glyph name={glyphs[blind.kind]} />
      <span>
        <strong>{blind.head}</strong> {blind.rest}
      </span>
    </p>
  );
}

export function StationBanners() {
  const view = station.value;
  return (
    <div class="banners">
      {unseen.value.map((blind) => (
        <BlindBanner key={blind.kind} blind={blind} />
      ))}
      <Called />
      <SignOffSoon />
      {view?.demonstration === true && route.value.page !== 'joint' && (
        <p class="banner mark">
          <strong>Demonstration.</strong> The temperatures are made by software. {view.remark ?? ''}
        </p>
      )}
      <UnreadLinks />
    </div>
  );
}

function UnreadLinks() {
  const words = unreadWords(station.value?.links ?? []);
  if (words === undefined) return null;
  return (
    <p class="banner warn" role="alert">
      <Glyph name="link" />
      <span>
        <strong>{words.head}</strong> {words.rest} <a href={linksAddress}>Links</a>
      </span>
    </p>
  );
}

/** Somebody asked to be told: it stands until it is seen. */
function Called() {
  return calls.value.flatMap((call) =>
    call.called === undefined
      ? []
      : [
          <p class="banner called" role="alert" key={`${call.joint} ${call.kind}`}>
            <Glyph name="bell" />
            <span>
              <strong>
                <a href={jointAddress(call.joint)}>{call.title}</a>: {call.called.text}
              </strong>{' '}
              (told at {clockMinuteText(call.called.at as Instant)}, as asked on this device).
            </span>
            <button type="button" onClick={() => drop(call)}>
              Seen
            </button>
          </p>,
        ],
  );
}

/** A sign-on that is about to end by itself, told in time. */
function SignOffSoon() {
  const seconds = endsSoon.value;
  if (seconds === undefined) return null;
  return (
    <p class="banner warn" role="alert">
      <Glyph name="person" />
      <span>
        <strong>You are signed off in less than a minute.</strong> Nobody has touched this screen for a while.
      </span>
      <button type="button" onClick={() => void stay()}>
        Stay signed on
      </button>
    </p>
  );
}

/** Over one joint: its probes have nothing to say, or said it too long ago. */
export function DataBanners({ live }: { readonly live: LiveJoint }) {
  const since = useRef(performance.now());
  const now = contact.value.kind === 'live' ? contact.value.now : undefined;
  return (
    <>
      {dataBlindness(live, now, monotonic.value - since.current).map((blind) => (
        <BlindBanner key={blind.kind} blind={blind} />
      ))}
    </>
  );
}
