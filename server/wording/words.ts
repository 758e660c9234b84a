/** Short names: phases, qualities, uses, places, conditions, severities. Every kind has its words or this does not compile. */
import type { Alarm, Phase, Severity, Verdict } from '../judgement/assessment.ts';
import type { ConditionId } from '../judgement/condition.ts';
import type { UnitSystem } from '../measure/units.ts';
import type { Source } from '../weld/entry.ts';
import type { Place, ProbeUse } from '../weld/probe.ts';
import type { Quality } from '../weld/scan.ts';
import { lengthText } from './length.ts';

export const phaseText = (phase: Phase): string => phases[phase];
export const qualityText = (quality: Quality): string => qualities[quality];
export const useText = (use: ProbeUse): string => uses[use];
export const conditionName = (id: ConditionId): string => conditions[id];
export const severityText = (severity: Severity): string => severities[severity];
export const alarmStateText = (state: Alarm['state']): string => alarmStates[state];

/** Three words for a heading; never more than was judged. */
export const verdictHeadline = (verdict: Verdict): string => verdicts[verdict];

/** "Side A, back face, 75 mm from the groove, at 3 o'clock". */
export const placeText = ({ side, face, distanceMillimetres, clock }: Place, units: UnitSystem): string => {
  const where = `Side ${side}, ${face} face, ${distance(distanceMillimetres, units)}`;
  return clock === undefined ? where : `${where}, at ${clock} o'clock`;
};

/** "side A, back face": enough to look the right way. */
export const placeShort = ({ side, face }: Place): string => `side ${side}, ${face} face`;

/** What the readings are; the mark of a source that is not a plain measurement stands on every screen and page. */
export const sourceText = (source: Source): string =>
  source.detail === '' ? sources[source.kind] : `${sources[source.kind]} ${sentence(source.detail)}`;

/** The mark alone: "Simulated". Absent for a measured source. */
export const sourceMark = ({ kind }: Pick<Source, 'kind'>): string | undefined => marks[kind];

const distance = (millimetres: number, units: UnitSystem): string =>
  millimetres === 0 ? 'on the groove edge' : `${lengthText(millimetres, units)} from the groove`;

const sentence = (text: string): string => {
  const begun = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
};

const phases: Readonly<Record<Phase, string>> = {
  planned: 'Planned',
  checking: 'Checking',
  heating: 'Heating',
  equalising: 'Evening out',
  ready: 'Ready',
  'pass running': 'Pass running',
  'between passes': 'Between passes',
  interrupted: 'Interrupted',
  'before post-heating': 'Before post-heating',
  'post-heating': 'Post-heating',
  cooling: 'Cooling',
  waiting: 'Waiting before the test',
  complete: 'Complete',
  closed: 'Closed',
};

const qualities: Readonly<Record<Quality, string>> = {
  good: 'good',
  open: 'wire open',
  'short to ground': 'short to ground',
  'short to supply': 'short to supply',
  'cold junction out of range': 'terminal temperature out of range',
  'out of range': 'out of range',
  'no reading': 'no reading',
};

const uses: Readonly<Record<ProbeUse, string>> = {
  zone: 'Preheat zone',
  interpass: 'Interpass',
  'opposite face': 'Opposite face',
  'heater control': 'Heater control',
  ambient: 'Ambient',
  spare: 'Spare',
};

const conditions: Readonly<Record<ConditionId, string>> = {
  'minimum stated': 'Minimum preheat known',
  'zone probes placed': 'Zone probes placed',
  'minimum reached': 'Minimum preheat',
  soak: 'Soak',
  'through thickness': 'Through the thickness',
  evenness: 'Evenness',
  'highest temperature': 'Highest temperature',
  'interpass maximum': 'Maximum interpass',
  'instruments calibrated': 'Instruments calibrated',
  'answers given': 'Named answers',
  'ambient check': 'Probes checked at ambient',
  'after break': 'After the break',
  checks: 'Checks before welding',
  'hold points': 'Hold points',
};

const severities: Readonly<Record<Severity, string>> = {
  nonconformity: 'Does not comply',
  'not judged': 'Not judged',
  remark: 'Remark',
};

const alarmStates: Readonly<Record<Alarm['state'], string>> = {
  active: 'Active, not acknowledged',
  'active acknowledged': 'Active, acknowledged',
  'returned unacknowledged': 'Back to normal, not acknowledged',
};

const verdicts: Readonly<Record<Verdict, string>> = {
  complies: 'Complies',
  'does-not-comply': 'Does not comply',
  'cannot-be-judged': 'Cannot be judged',
};

const marks: Readonly<Record<Source['kind'], string | undefined>> = {
  measured: undefined,
  'not verified': 'Source not verified',
  simulated: 'Simulated',
  replayed: 'Replayed',
  imported: 'Imported',
};

const sources: Readonly<Record<Source['kind'], string>> = {
  measured: 'Measured.',
  'not verified': 'Source not verified: nobody has yet put their name to what is connected.',
  simulated: 'Simulated: made by software, not measured on a part.',
  replayed: 'Replayed: measured earlier and played again.',
  imported: 'Imported from a log: this station did not measure it.',
};
