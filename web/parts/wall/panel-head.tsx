/** What one part comes to in words: how it stands, what lies ahead, how long a break may last, what is doubted. */
import type { SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import { lengthText } from '../../../server/wording/length.ts';
import { bound } from '../../format/bound.ts';
import { Glyph, type GlyphName } from '../glyph.tsx';
import type { PanelProps } from './panel.tsx';
import { doubtText, startText } from './sure-words.ts';
import { aheadText, breakText, standingText } from './words.ts';

const glyphs: Readonly<Record<SectionStatus['state'], GlyphName>> = {
  met: 'met',
  'not met': 'unmet',
  'not judged': 'unjudged',
};

export function PanelHead({ section, outlook, missing, minimum, units, isBar, closed }: PanelProps) {
  const { part, depthMillimetres, state } = section;
  const standing = standingText(section, missing, minimum, units);
  const ahead = aheadText(section, outlook, units);
  const lasting = breakText(outlook, units);
  const start = startText(section, units);
  const doubt = doubtText(section, units);
  return (
    <div class="wall-head">
      <h3>
        {part}, {lengthText(depthMillimetres, units)}
        {isBar && ' to the axis'}
      </h3>
      {!closed && (
        <>
          <p class="wall-standing">
            <Glyph name={glyphs[state]} />
            <span>
              <strong>{standing.word}</strong>
              {standing.because !== '' && `: ${bound(standing.because)}`}
            </span>
          </p>
          {ahead !== undefined && <p class="wall-ahead">{bound(ahead)}</p>}
          {lasting !== undefined && <p class="aside">{bound(lasting)}</p>}
          {start !== undefined && <p class="aside">{bound(start)}</p>}
          {doubt !== undefined && <p class="notice loud">{bound(doubt)}</p>}
        </>
      )}
    </div>
  );
}
