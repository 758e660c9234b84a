/** The background of a repair as it stands in the form, and from there to the joint file and back. */
import { heatedDistances } from '../../../server/placing/rules.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { RepairOf } from '../../../server/weld/repair.ts';
import { clean, type Reader } from './raw-reader.ts';

export interface RepairDraft {
  /** Empty: the joint is no repair. */
  readonly joint: string;
  readonly found: string;
  readonly metal: string;
  readonly cause: string;
  readonly method: string;
  readonly depth: string;
  readonly length: string;
  readonly examinedBy: string;
  readonly result: string;
  readonly before: string;
  readonly after: string;
  readonly width: string;
}

export const repairDraftOf = (repair: RepairOf): RepairDraft => ({
  joint: repair.joint,
  found: repair.found,
  metal: repair.metal,
  cause: repair.cause,
  method: repair.excavation.method,
  depth: String(repair.excavation.depthMillimetres),
  length: String(repair.excavation.lengthMillimetres),
  examinedBy: repair.excavation.examinedBy,
  result: repair.excavation.result,
  before: repair.heatTreatment.before,
  after: repair.heatTreatment.after,
  width: String(repair.preheatWidthMillimetres),
});

export function repairOf(draft: RepairDraft, { quantity }: Reader): Record<string, unknown> | undefined {
  if (draft.joint === '') return undefined;
  const length = (text: string, field: string) => quantity(text, 'length', `repairOf.${field}`, true);
  return clean({
    joint: draft.joint,
    found: draft.found.trim(),
    metal: draft.metal,
    cause: draft.cause.trim(),
    excavation: clean({
      method: draft.method,
      depthMillimetres: length(draft.depth, 'excavation.depthMillimetres'),
      lengthMillimetres: length(draft.length, 'excavation.lengthMillimetres'),
      examinedBy: draft.examinedBy,
      result: draft.result,
    }),
    heatTreatment: { before: draft.before.trim(), after: draft.after.trim() },
    preheatWidthMillimetres: length(draft.width, 'preheatWidthMillimetres'),
  });
}

/** The widest that a code asks for, millimetres. */
export const suggestedWidth = (parts: Pick<Joint['parts'][number], 'thicknessMillimetres'>[]): number | undefined => {
  const thickest = Math.max(
    0,
    ...parts.map(({ thicknessMillimetres }) => thicknessMillimetres).filter(Number.isFinite),
  );
  if (thickest === 0) return undefined;
  return Math.max(...heatedDistances(thickest).map(({ distanceMillimetres }) => distanceMillimetres));
};
