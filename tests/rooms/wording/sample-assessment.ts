/** A plain assessment to put one's own facts into: a heated joint with two zone probes and one opposite the heat. */
import type { Assessment } from '../../../server/judgement/assessment.ts';
import type { Condition } from '../../../server/judgement/condition.ts';
import type { BoundedCelsius, SectionStatus } from '../../../server/judgement/inside/section-status.ts';
import type { ProbeStatus } from '../../../server/judgement/probe-status.ts';
import { instant, type MilliCelsius, milliCelsius, milliseconds } from '../../../server/measure/quantity.ts';
import type { ProbeUse } from '../../../server/weld/probe.ts';

export const at = instant(1_795_000_000_000);

export const probe = (id: string, use: ProbeUse, face: 'front' | 'back', celsius: number): ProbeStatus => ({
  probe: id,
  use,
  place: { part: 'plate', side: 'A', face, distanceMillimetres: 75 },
  quality: 'good',
  temperature: milliCelsius(celsius),
  measuredAt: at,
  fresh: true,
  trusted: true,
  required: true,
});

export const assessment = (facts: Partial<Assessment> = {}): Assessment => ({
  at,
  ahead: { required: [] },
  phase: 'heating',
  source: { kind: 'measured', detail: 'board mill-3' },
  heat: 'on',
  limits: { preheatMinimum: milliCelsius(150), interpassMaximum: milliCelsius(250) },
  requirement: {
    units: 'metric',
    equivalents: [],
    methods: [],
    governing: { kind: 'procedure', preheatMinimumCelsius: 150, because: 'The procedure states it.' },
    warnings: [],
  },
  probes: [
    probe('T1', 'zone', 'front', 151),
    probe('T4', 'opposite face', 'back', 128),
    probe('T9', 'interpass', 'front', 180),
  ],
  coldest: { probe: 'T4', temperature: milliCelsius(128) },
  spread: [],
  conditions: [],
  ready: false,
  soak: { rule: 'opposite', state: 'not needed' },
  sections: [],
  throughThickness: { asked: false, state: 'not judged', required: milliseconds(0), done: milliseconds(0) },
  interpass: { state: 'not judged' },
  passes: [],
  findings: [],
  alarms: [],
  shelvings: [],
  verdict: 'cannot-be-judged',
  scope: [],
  ...facts,
});

export const bounded = (low: number, likely: number, high: number): BoundedCelsius => ({
  low: milliCelsius(low),
  likely: milliCelsius(likely),
  high: milliCelsius(high),
});

/** A plate of 80 mm in still air, driven by one zone probe and not warm through yet. */
export const sectionStatus = (facts: Partial<SectionStatus> = {}): SectionStatus => ({
  part: 'plate A',
  depthMillimetres: 80,
  front: 'front',
  frontProbes: ['zone A'],
  backProbes: [],
  farSide: 'still air',
  farMeasured: false,
  steel: { name: 'carbon steel', source: 'EN 1993-1-2:2005', status: 'verified', band: 0.2, by: 'analysis' },
  state: 'not met',
  at,
  coldest: bounded(137.6, 140.2, 142.1),
  farFace: bounded(137.6, 140.2, 142.1),
  frontFace: milliCelsius(150),
  ...facts,
});

export const below: Condition = {
  id: 'minimum reached',
  state: 'not met',
  reason: 'below minimum',
  probe: 'T4',
  value: milliCelsius(128.2) as MilliCelsius,
  limit: milliCelsius(150),
  timeToGo: (13.2 * 60_000) as never,
};
