/** The joint as it is supposed to have been, in its opening entry and in each revision; everything that was measured and done stays. */
import type { Act, Input } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import type { Scan } from '../weld/scan.ts';
import type { Supposition } from './supposition.ts';

type OfJoint = Exclude<Supposition, { kind: 'more time' }>;

export const jointAs =
  (supposed: OfJoint) =>
  (joint: Joint): Joint => {
    switch (supposed.kind) {
      case 'far face insulated':
        return {
          ...joint,
          parts: joint.parts.map((part) => ({ ...part, farSide: 'insulated' })),
          // What was read on a far face that was not insulated says nothing of one that is.
          probes: joint.probes.map((probe) => {
            if (!isOnFarFace(joint, probe)) return probe;
            const { place: _place, ...wire } = probe;
            return { ...wire, use: 'spare' };
          }),
        };
      case 'probe left out':
        return { ...joint, probes: joint.probes.filter(({ id }) => id !== supposed.probe) };
      case 'other limits': {
        const { kind: _kind, ...limits } = supposed;
        const { boundRevision: _bound, ...rest } = joint;
        const procedure = joint.procedure ?? { id: 'supposed', revision: '0', decisionRule: 'simple acceptance' };
        const stated = Object.fromEntries(Object.entries(limits).filter(([, value]) => value !== undefined));
        return { ...rest, procedure: { ...procedure, ...stated } };
      }
    }
  };

/** Measured on a face that is not heated; of a furnace and of heat from both sides no face is so. */
export const isOnFarFace = ({ heating }: Joint, { place, use }: Joint['probes'][number]): boolean =>
  heating.face !== 'both' &&
  place !== undefined &&
  place.face !== heating.face &&
  (use === 'zone' || use === 'opposite face');

export function* inputsAs(supposed: OfJoint, inputs: Iterable<Input>): Iterable<Input> {
  for (const input of inputs) {
    const as = inputAs(supposed, input);
    if (as !== undefined) yield as;
  }
}

/** Undefined: the input would not have been. */
function inputAs(supposed: OfJoint, input: Input): Input | undefined {
  const change = jointAs(supposed);
  if (input.type === 'act' && input.act.kind === 'revise')
    return { ...input, act: { ...input.act, joint: change(input.act.joint) } };
  if (supposed.kind !== 'probe left out') return input;
  if (input.type === 'scan') return { type: 'scan', scan: scanWithout(input.scan, supposed.probe) };
  return input.type === 'act' && isAbout(input.act, supposed.probe) ? undefined : input;
}

const scanWithout = (scan: Scan, probe: string): Scan => ({
  ...scan,
  values: scan.values.filter((each) => each.probe !== probe),
});

/** Entries that say nothing without the probe; a check of all probes says something of the others and stays. */
export function isAbout(act: Act, probe: string): boolean {
  if (act.kind === 'spare takes over') return act.spare === probe || act.probe === probe;
  return (
    (act.kind === 'distrust probe' || act.kind === 'trust probe again' || act.kind === 'spot examined') &&
    act.probe === probe
  );
}

/** The joint as it was last entered. */
export function lastJoint(opened: Joint, inputs: Iterable<Input>): Joint {
  let joint = opened;
  for (const input of inputs) if (input.type === 'act' && input.act.kind === 'revise') joint = input.act.joint;
  return joint;
}
