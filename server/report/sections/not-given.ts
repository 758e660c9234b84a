/**
 * What a record of preheating is expected to hold and nobody entered, named one by one: what is left out of a report is
 * otherwise taken for done. Which facts those are is the union of what codes and standards ask to be on paper; what a job
 * asks for by its procedure alone (post-heating, a cover) is judged and told where it belongs.
 */
import type { PassStatus } from '../../judgement/pass-status.ts';
import type { Joint } from '../../weld/joint.ts';
import { weatherCheck } from '../../weld/usual-checks.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';

/** What is missing of a fact: nothing (false), all of it, or of whom. */
type Missing = boolean | readonly string[];
type Expected = readonly (readonly [fact: string, missing: Missing])[];

export const notGivenSection = (facts: ReportFacts): Section => {
  const items = [...ofJoint(facts.joint), ...ofMeasuring(facts), ...ofWork(facts)].flatMap(([fact, missing]) =>
    missing === false || (missing !== true && missing.length === 0)
      ? []
      : [missing === true ? fact : `${fact}: ${missing.join(', ')}`],
  );
  const list: Block = items.length === 0 ? paragraph('Nothing.') : { kind: 'list', items };
  return { heading: 'Not given', blocks: [paragraph(explained), list] };
};

const explained =
  'A record of this kind is expected to hold these facts too. Nobody entered them: none was assumed, and what hangs on one was not judged.';

function ofJoint({ drawing, workshop, parts, consumable, heatInput, procedure }: Joint): Expected {
  const partsWithout = (has: (part: (typeof parts)[number]) => unknown): readonly string[] =>
    parts.filter((part) => !has(part)).map(({ id }) => id);
  return [
    ['Workshop', workshop === undefined],
    ['Drawing', drawing === undefined],
    ['Welding procedure', procedure === undefined],
    ['Number of its qualification record (WPQR, PQR)', procedure?.qualification === undefined],
    ['Code and edition that the procedure is written to', procedure?.codeEdition === undefined],
    ['Maximum interpass temperature', procedure?.interpassMaximumCelsius === undefined],
    ['Temperature to be kept in breaks', procedure?.maintenanceMinimumCelsius === undefined],
    ['Grade of the part', partsWithout(({ grade }) => grade)],
    ['Heat number', partsWithout(({ analyses }) => analyses.some(({ heat }) => heat))],
    ['Certificate', partsWithout(({ analyses }) => analyses.some(({ certificate }) => certificate))],
    ['What lies behind the part, insulated or not', partsWithout(({ farSide = 'unknown' }) => farSide !== 'unknown')],
    ['Designation of the consumable', consumable.designation === undefined],
    ['Hydrogen of the consumable', consumable.hydrogen === 'not stated'],
    ['Heat input of the procedure', heatInput === 'not stated'],
  ];
}

function ofMeasuring({ joint, assessment, timeline }: ReportFacts): Expected {
  const probesWithout = (has: (probe: Joint['probes'][number]) => unknown): readonly string[] =>
    joint.probes.filter((probe) => !has(probe)).map(({ id }) => id);
  const register = (assessment.instruments ?? []).map(({ instrument }) => instrument);
  const isRound = joint.jointType === 'pipe butt' || joint.jointType === 'nozzle or branch';
  const hasAir = joint.probes.some(({ use }) => use === 'ambient') || assessment.ambientCheck?.made !== undefined;
  const isDry = assessment.checks?.some(({ id, answered }) => id === weatherCheck && answered !== undefined) === true;
  const clock = isRound ? probesWithout(({ place }) => place === undefined || place.clock !== undefined) : [];
  const holds = timeline.some(({ input }) => input.type === 'act' && input.act.kind === 'contact reading');
  return [
    ['How the tip of the thermocouple is held', probesWithout(({ place, attachedBy }) => !place || attachedBy)],
    [
      'Class of the thermocouple',
      probesWithout(({ wire }) => register.some(({ id, toleranceClass }) => id === wire && toleranceClass)),
    ],
    ['Clock position of the thermocouple', clock],
    ['Instruments and their calibration', register.length === 0],
    ['Calibration certificate', register.filter(({ certificate }) => !certificate).map(({ id }) => id)],
    ['Day on which the calibration is due', register.filter(({ dueOn }) => !dueOn).map(({ id }) => id)],
    ['Check of the probes for polarity and offset', assessment.ambientCheck?.made === undefined],
    ['Reading by hand beside a probe', !holds],
    ['Temperature of the air', !hasAir],
    ['Weather, and that the surface was dry', !isDry],
  ];
}

function ofWork({ assessment, timeline }: ReportFacts): Expected {
  const { passes, after, minimumFirstReachedAt } = assessment;
  const entered = (state: 'on' | 'off'): boolean =>
    timeline.some(({ input }) => input.type === 'act' && input.act.kind === 'heat' && input.act.state === state);
  const passesWithout = (has: (pass: PassStatus) => unknown): readonly string[] =>
    passes.filter((pass) => !has(pass)).map(({ pass }) => pass);
  return [
    ['Start of heating', !entered('on')],
    ['End of heating', !entered('off')],
    ['Time at which every place was at the minimum', minimumFirstReachedAt === undefined],
    ['Passes', passes.length === 0],
    ['Batch of the consumable, pass', passesWithout(({ details }) => details.batch)],
    ['Voltage, current and travel of the arc, pass', passesWithout(({ heat }) => heat.energy !== undefined)],
    ['End of the arc, pass', passesWithout(({ endedAt }) => endedAt !== undefined)],
    ['End of welding', after === undefined],
    ['Earliest time of the test', after === undefined || after.wait.state === 'not known'],
  ];
}
