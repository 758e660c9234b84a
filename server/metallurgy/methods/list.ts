/** The methods that are worked for every part. Adding one is a file beside this and a line here. */
import type { Joint } from '../../weld/joint.ts';
import type { Part } from '../../weld/part.ts';
import type { Method } from '../method.ts';
import { asmeB311 } from './asme-b31-1.ts';
import { asmeB3132010 } from './asme-b31-3-2010.ts';
import { asmeB3132014 } from './asme-b31-3-2014.ts';
import { awsD11HydrogenControl } from './aws-d1-1-hydrogen-control.ts';
import { awsD11Prequalified } from './aws-d1-1-prequalified.ts';
import { chartMethod, readingsFor } from './chart-reading.ts';
import { en10112MethodA, methodAAsRead, methodAName } from './en-1011-2-method-a.ts';
import { en10112MethodB } from './en-1011-2-method-b.ts';
import { itoBessyo } from './ito-bessyo.ts';
import { seferian } from './seferian.ts';
import { usNavy278 } from './us-navy-278.ts';
import { yuriokaCen } from './yurioka-cen.ts';

export const methods: readonly Method[] = [
  en10112MethodB,
  en10112MethodA,
  awsD11HydrogenControl,
  awsD11Prequalified,
  asmeB3132014,
  asmeB3132010,
  asmeB311,
  usNavy278,
  itoBessyo,
  seferian,
  yuriokaCen,
];

/** The same for one part of a joint, with what was read off charts for it. */
export function methodsFor(joint: Joint, part: Part): readonly Method[] {
  const readings = readingsFor(joint, part);
  const ofMethodA = readings.find((one) => one.method === methodAName);
  const others = readings.filter((one) => one.method !== methodAName);
  return [
    ...methods.map((method) =>
      method === en10112MethodA && ofMethodA !== undefined ? methodAAsRead(ofMethodA) : method,
    ),
    ...others.map((reading) => chartMethod(reading)),
  ];
}
