/** One part seen through its thickness: how it stands, the profile now, the map of how it came there, how sure it is. */
import { Fragment } from 'preact';
import { useMemo } from 'preact/hooks';
import type { SectionCourse, SectionOutlook, SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { MilliCelsius } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import { lengthUnit } from '../../../server/wording/length.ts';
import { begun } from '../../../server/wording/list.ts';
import { degreeUnit } from '../../../server/wording/temperature.ts';
import type { Scale } from '../../chart/axis.ts';
import { bound } from '../../format/bound.ts';
import { clockText } from '../../format/time.ts';
import { HeatMap } from './map.tsx';
import { type ColourSpan, mapPicture } from './map-model.ts';
import { PanelHead } from './panel-head.tsx';
import { Profile } from './profile.tsx';
import { type FaceReading, profilePicture } from './profile-model.ts';
import { sureTexts } from './sure-words.ts';
import { TableOfWall } from './table.tsx';
import { wallTable } from './table-model.ts';
import { useWidth } from './use-width.ts';
import { faceTexts, standingText } from './words.ts';

export interface PanelProps {
  readonly section: SectionStatus;
  readonly course: SectionCourse | undefined;
  readonly outlook: SectionOutlook | undefined;
  readonly readings: readonly FaceReading[];
  /** Probes of the section that cannot be believed now. */
  readonly missing: readonly string[];
  readonly minimum: MilliCelsius | undefined;
  readonly units: UnitSystem;
  readonly scale: Scale;
  readonly span: ColourSpan;
  readonly isBar: boolean;
  /** A closed joint has a past only. */
  readonly closed: boolean;
}

export function WallPanel(props: PanelProps) {
  const { section, course, readings, missing, minimum, units, scale, span, isBar, closed } = props;
  const { part, depthMillimetres } = section;
  const [box, width] = useWidth();
  const standing = standingText(section, missing, minimum, units);
  const profile = closed
    ? undefined
    : profilePicture({ section, readings, minimum, units, scale, width: width.profile });
  const map = useMemo(
    () =>
      course === undefined
        ? undefined
        : mapPicture({ course, depthMillimetres, minimum, span, units, width: width.map }),
    [course, depthMillimetres, minimum, span.low, span.high, units, width.map],
  );
  const depthUnit = lengthUnit(units);
  return (
    <article class={`wall-panel ${section.state.replace(' ', '-')}`} aria-label={`Through ${part}`}>
      <PanelHead {...props} />
      <div class="wall-body">
        <div class={width.beside ? 'wall-pictures beside' : 'wall-pictures'} ref={box}>
          {profile !== undefined && (
            <figure>
              <Profile
                picture={profile}
                faces={faceTexts(section, isBar)}
                unit={degreeUnit(units)}
                depthUnit={depthUnit}
                spoken={`Profile through ${part}: ${standing.word}, ${standing.because}.`}
              />
              <figcaption class="aside">
                Line: likely; band: lowest to highest possible; triangle: coldest at worst
                {section.at === undefined ? '' : `. As of ${clockText(section.at)}`}.
              </figcaption>
            </figure>
          )}
          {map !== undefined && course !== undefined && (
            <figure>
              <HeatMap
                picture={map}
                spoken={`Map of the temperatures through ${part} over time, the heated face on top. The table below holds the same.`}
              />
              <TableOfWall
                part={part}
                unit={degreeUnit(units)}
                make={() => wallTable(course, depthMillimetres, minimum, units)}
              />
            </figure>
          )}
        </div>
        {(profile !== undefined || map !== undefined) && (
          <details class="wall-sure">
            <summary>How sure</summary>
            <dl class="facts">
              {sureTexts(section, minimum, units).map(({ name, text }) => (
                <Fragment key={name}>
                  <dt>{name}</dt>
                  <dd>{bound(begun(text))}</dd>
                </Fragment>
              ))}
            </dl>
          </details>
        )}
      </div>
    </article>
  );
}
