/** Heat through the thickness of every part of a joint, all on one scale. */
import { isBeforeHeat } from '../../../server/judgement/phases/phase-kind.ts';
import { governingSoakText } from '../../../server/wording/governing-soak.ts';
import { fallText, throughAfterText, throughText } from '../../../server/wording/section.ts';
import { limitText } from '../../../server/wording/temperature.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { dayClockText } from '../../format/time.ts';
import type { ProbeRow } from '../../state/probe-rows.ts';
import { correctAddress } from '../../state/route.ts';
import { ColourKey } from './map.tsx';
import { colourSpanOf, upToNow } from './map-model.ts';
import { WallPanel } from './panel.tsx';
import { scaleOf } from './profile-model.ts';
import { readingsOf } from './readings.ts';
import { isLackOfJoint } from './words.ts';

export function ThroughThickness({
  live,
  rows,
}: {
  readonly live: LiveJoint;
  readonly rows: ReadonlyMap<string, ProbeRow>;
}) {
  const { joint, assessment, outlook } = live;
  const { sections, throughThickness, limits, requirement } = assessment;
  const { units } = requirement;
  const closed = assessment.phase === 'closed';
  const through =
    closed || assessment.after !== undefined
      ? throughAfterText(throughThickness, (at) => dayClockText(at))
      : throughText(throughThickness);
  // Until the heat goes on, a cold face that stays cold is no forecast: the plan tells more.
  const ahead = isBeforeHeat(assessment.phase) || outlook === undefined ? [] : outlook.sections;
  const minimum = limits.preheatMinimum;
  const courses = sections.map((section) => {
    const course = live.courses.find(({ part }) => part === section.part);
    return course === undefined || closed ? course : upToNow(course, section);
  });
  const readings = sections.map((section) => readingsOf(live, section, rows));
  const scale = scaleOf(sections, readings.flat(), minimum, units);
  const span = colourSpanOf(
    courses.filter((course) => course !== undefined),
    minimum,
    units,
  );
  const isMapped = courses.some((course) => course !== undefined && course.at.length > 1);
  const governing = governingSoakText(assessment);
  if (sections.length === 0 || (closed && !isMapped)) return null;
  return (
    <section class="sheet" aria-labelledby="through-heading">
      <div class="sheet-head">
        <h2 id="through-heading">Through the thickness</h2>
        {!(closed && throughThickness.state === 'not begun') && <p class="aside">{through}</p>}
      </div>
      {governing !== undefined && <p class="through-governs">{governing}</p>}
      {!closed && outlook?.breakByTrend !== undefined && (
        <p class="through-governs">{fallText(outlook.breakByTrend, units)}.</p>
      )}
      <div class="wall-panels">
        {sections.map((section, index) => (
          <WallPanel
            key={section.part}
            section={section}
            course={courses[index]}
            outlook={ahead.find(({ part }) => part === section.part)}
            readings={readings[index] ?? []}
            missing={[...section.frontProbes, ...section.backProbes].filter(
              (probe) => assessment.probes.find((each) => each.probe === probe)?.trusted !== true,
            )}
            minimum={minimum}
            units={units}
            scale={scale}
            span={span}
            isBar={joint.parts.some(({ id, form }) => id === section.part && form === 'bar')}
            closed={closed}
          />
        ))}
      </div>
      {isMapped && (
        <ColourKey
          span={span}
          ticks={span.ticks}
          minimum={
            minimum === undefined
              ? undefined
              : { celsius: minimum / 1000, text: `minimum, ${limitText(minimum, units)}` }
          }
        />
      )}
      {!closed && sections.some(isLackOfJoint) && (
        <p class="wall-mend">
          <a class="button" href={correctAddress(joint.id)}>
            Correct the joint
          </a>
        </p>
      )}
      {(isMapped || sections.some(({ profile }) => profile !== undefined)) && (
        <p class="aside">
          Computed by heat conduction from the probes on the faces; what runs sideways out of the heated band is
          reckoned with.
        </p>
      )}
    </section>
  );
}
