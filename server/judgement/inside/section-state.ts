/** What is remembered of the heat through each part, between two inputs. */
import { copyFarFace, type FarFace } from '../../conduction/far-face.ts';
import { type FarLoss, farLossOf } from '../../conduction/far-loss.ts';
import { type JointSection, jointSections } from '../../conduction/joint-sections.ts';
import { isRefusal } from '../../conduction/refusal.ts';
import { type Bounded, copySection, type Section, type SectionStart } from '../../conduction/section.ts';
import type { Instant } from '../../measure/quantity.ts';
import type { Joint } from '../../weld/joint.ts';
import { rules } from '../rules.ts';
import { type CourseState, copyCourse, emptyCourse } from './section-course.ts';
import type { SectionReason } from './section-status.ts';
import type { SectionUncertainty } from './section-uncertainty.ts';

export interface SectionState {
  /** What the joint says of it; shared by all copies. */
  readonly place: JointSection;
  section?: Section;
  start?: SectionStart;
  /** Watch over the probe on the far face, where there is one. */
  farFace?: FarFace;
  /** Finding that stands while that probe is doubted. */
  doubtKey?: string;
  /** Of the coldest point at the end of the last step. */
  coldest?: Bounded;
  /** The last gap that was too long for a straight line. */
  gap?: { readonly from: Instant; readonly to: Instant };
  /** Why the newest reading was not taken. */
  refused?: SectionReason;
  /** Finding that stands while it is refused. */
  refusedKey?: string;
  /** Of the newest readings that drove it. */
  uncertainty?: SectionUncertainty;
  course: CourseState;
}

/** As the joint has them now; a section of which nothing changed goes on. */
export function sectionsOf(joint: Joint, before: readonly SectionState[] = []): SectionState[] {
  return jointSections(joint).map((place) => {
    const same = before.find((each) => JSON.stringify(each.place) === JSON.stringify(place));
    return same ?? { place, course: emptyCourse() };
  });
}

export const copySections = (sections: readonly SectionState[]): SectionState[] =>
  sections.map((each) => ({
    ...each,
    ...(each.section === undefined ? {} : { section: copySection(each.section) }),
    ...(each.farFace === undefined ? {} : { farFace: copyFarFace(each.farFace) }),
    course: copyCourse(each.course),
  }));

/** What the far face gives to the air, where probes on both faces tell it. */
export function farLossFound({ section, farFace, uncertainty }: SectionState): FarLoss | undefined {
  if (section === undefined || farFace === undefined) return undefined;
  const found = farLossOf(farFace.loss, section.likely, uncertainty?.probeKelvin ?? rules.probeUncertaintyKelvin);
  return isRefusal(found) ? undefined : found;
}
