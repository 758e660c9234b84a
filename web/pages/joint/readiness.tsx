/** The answer to "may I start, now?": one sentence that cannot be mistaken, then each condition. */

import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { bound } from '../../format/bound.ts';
import { Glyph, type GlyphName } from '../../parts/glyph.tsx';
import type { Standing, Tone } from '../../state/standing.ts';
import { Conditions } from './conditions.tsx';

const glyphs: Readonly<Record<Tone, GlyphName>> = {
  ready: 'met',
  waiting: 'wait',
  running: 'arc',
  outside: 'alarm',
  unknown: 'blind',
  closed: 'closed',
};

export function Readiness({ live, standing }: { readonly live: LiveJoint; readonly standing: Standing }) {
  const old = standing.tone === 'unknown';
  const panel = useRef<HTMLElement>(null);
  const away = useSignal(false);
  useEffect(() => {
    const watch = new IntersectionObserver(([entry]) => {
      away.value = entry !== undefined && !entry.isIntersecting && entry.boundingClientRect.bottom < 80;
    });
    if (panel.current !== null) watch.observe(panel.current);
    return () => watch.disconnect();
  }, []);
  return (
    <section class={`readiness ${standing.tone}`} aria-label="Readiness" ref={panel}>
      {away.value && (
        <p class={`mini ${standing.tone}`} aria-hidden="true">
          <Glyph name={glyphs[standing.tone]} size={32} />
          <span>
            <strong>{standing.head}</strong>
            {bound(standing.rest)}
          </span>
        </p>
      )}
      <div class="sentence">
        <Glyph name={glyphs[standing.tone]} size={56} />
        <h2>
          <strong>{standing.head}</strong>
          {bound(standing.rest)}
        </h2>
        {/* Read out when the word changes, not with every degree. */}
        <p class="unseen" role="status">
          {standing.head}
        </p>
      </div>
      {standing.advice !== undefined && <p class="advice">{standing.advice}</p>}
      {live.assessment.phase !== 'closed' && live.assessment.after === undefined && (
        <div class={old ? 'was' : ''}>
          {old && <p class="advice">Last known, not the present:</p>}
          <Conditions assessment={live.assessment} />
        </div>
      )}
    </section>
  );
}
