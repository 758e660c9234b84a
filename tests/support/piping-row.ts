/** What the table of a piping code says of a plain joint with these changes. */
import type { MethodAnswer } from '../../server/metallurgy/answer.ts';
import { requirement } from '../../server/metallurgy/requirement.ts';
import type { CodeSet } from '../../server/weld/code.ts';
import type { Analysis } from '../../server/weld/composition.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Part } from '../../server/weld/part.ts';
import { plainJoint, withPercent } from './plain-joint.ts';

const ids = { 'ASME B31.3:2014': 'asme-b31-3-2014', 'ASME B31.3:2010': 'asme-b31-3-2010', 'ASME B31.1': 'asme-b31-1' };

export function pipingRow(
  codeSet: keyof typeof ids & CodeSet,
  changes: Partial<Part>,
  percent: Analysis['percent'] = {},
): MethodAnswer {
  return tableRow(ids[codeSet], { codeSet, units: 'metric' }, changes, percent);
}

/** The same of any table by its id; `job` is what is stated of the whole joint. */
export function tableRow(
  id: string,
  job: Partial<Joint>,
  changes: Partial<Part>,
  percent: Analysis['percent'] = {},
): MethodAnswer {
  const joint = plainJoint(job);
  const parts = joint.parts.map((part) => ({ ...part, analyses: [withPercent(percent)], ...changes }));
  return requirement({ ...joint, parts }, []).methods.find((one) => one.id === id)!;
}
