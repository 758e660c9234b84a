/** From a joint to what stands in the form, in the units of the job: to correct it, or to go on from a file. */

import type { Joint, jointSchema } from '../../../server/weld/joint.ts';
import type { AnalysisDraft, ContentDraft, JointDraft } from './draft.ts';
import { quantitiesMapped } from './draft-units.ts';
import { emptyDraft } from './empty-draft.ts';
import { recordedIn, statedDraft, text } from './procedure-draft.ts';
import { quantityText } from './quantity.ts';
import { repairDraftOf } from './repair-draft.ts';

export const draftOf = (joint: Joint): JointDraft => {
  const draft = metricDraft(joint);
  if (joint.units !== 'inch') return draft;
  return quantitiesMapped(draft, (typed, kind) => (typed === '' ? '' : quantityText(Number(typed), kind, 'inch')));
};

/** Fields of the joint that the form shows. Any other is carried through as it is. */
const known = new Set<string>([
  'format',
  'id',
  'title',
  'workshop',
  'drawing',
  'contact',
  'arcSignal',
  'jointType',
  'units',
  'codeSet',
  'restraint',
  'restraintIntensity',
  'stressConcentration',
  'meanWeldStressMegapascals',
  'crackingZone',
  'parts',
  'consumable',
  'process',
  'heatInput',
  'weldShape',
  'weldSizeMillimetres',
  'coolingSeconds',
  'heating',
  'probes',
  'procedure',
  'boundRevision',
  'codeFloor',
  'bindingMethods',
  'chartReadings',
  'postHeating',
  'waitingEdition',
  'repairOf',
] satisfies (keyof typeof jointSchema.shape)[]);

const metricDraft = (joint: Joint): JointDraft => {
  const { codeFloor, consumable } = joint;
  return {
    format: 'joint draft 2',
    title: joint.title,
    id: joint.id,
    idTyped: true,
    workshop: joint.workshop ?? '',
    drawing: joint.drawing ?? '',
    contact: joint.contact ?? '',
    jointType: joint.jointType,
    units: joint.units ?? '',
    restraint: joint.restraint ?? '',
    restraintIntensity: text(joint.restraintIntensity),
    stressConcentration: text(joint.stressConcentration),
    meanStress: text(joint.meanWeldStressMegapascals),
    crackingZone: joint.crackingZone ?? '',
    parts: joint.parts.map((part) => ({
      id: part.id,
      side: part.side,
      grade: part.grade ?? '',
      thickness: text(part.thicknessMillimetres),
      form: part.form ?? '',
      diameter: text(part.outsideDiameterMillimetres),
      kind: part.kind ?? '',
      yield: text(part.yieldMegapascals),
      tensile: text(part.tensileMegapascals),
      pNumber: part.pNumber ?? '',
      awsCategory: part.awsCategory ?? '',
      farSide: part.farSide ?? '',
      conductsAs: part.conductsAs ?? '',
      analyses: part.analyses.map(analysisDraft),
    })),
    designation: consumable.designation ?? '',
    deposit: consumable.deposit ?? '',
    glycerine: text(consumable.glycerineMillilitresPer100Grams),
    hydrogen: hydrogenDraft(consumable.hydrogen),
    weldMetal: consumable.weldMetal === undefined ? [] : [analysisDraft(consumable.weldMetal)],
    process: joint.process,
    heatInput: heatInputDraft(joint.heatInput),
    weldShape: joint.weldShape ?? '',
    weldSize: text(joint.weldSizeMillimetres),
    ...statedDraft(joint),
    heating: {
      means: joint.heating.means,
      face: joint.heating.face,
      whileWelding: joint.heating.whileWelding,
      halfWidth: text(joint.heating.halfWidthMillimetres),
      air: text(joint.heating.airCelsius),
      setPoint: text(joint.heating.setPointCelsius),
    },
    codeFloor: {
      stated: codeFloor !== undefined,
      celsius: text(codeFloor?.preheatMinimumCelsius),
      source: codeFloor?.source ?? '',
    },
    bindingMethods: joint.bindingMethods ?? [],
    chartReadings: (joint.chartReadings ?? []).map((reading) => ({
      method: reading.method,
      chart: reading.chart,
      scale: reading.scale ?? '',
      part: reading.part ?? '',
      combinedThickness: text(reading.combinedThicknessMillimetres),
      heatInput: text(reading.heatInputKilojoulesPerMillimetre),
      equivalent: text(reading.carbonEquivalentPercent),
      minimum: text(reading.preheatMinimumCelsius),
      role: reading.role,
    })),
    arc: { board: joint.arcSignal?.board ?? '', input: text(joint.arcSignal?.input) },
    probes: joint.probes.map(({ id, board, channel, thermocouple, use, place, ...chain }) => ({
      id,
      board,
      channel: text(channel),
      thermocouple,
      use,
      placed: place !== undefined,
      part: place?.part ?? joint.parts[0]?.id ?? '',
      side: place?.side ?? 'A',
      face: place?.face ?? 'front',
      distance: text(place?.distanceMillimetres),
      clock: text(place?.clock),
      wire: chain.wire ?? '',
      extension: chain.extension ?? '',
      attachment: text(chain.attachmentErrorKelvin),
      attachedBy: chain.attachedBy ?? '',
    })),
    ...recordedIn(joint),
    ...(joint.repairOf === undefined ? {} : { repair: repairDraftOf(joint.repairOf) }),
    carried: Object.fromEntries(Object.entries(joint).filter(([field]) => !known.has(field))),
  };
};

const hydrogenDraft = (hydrogen: Joint['consumable']['hydrogen']): JointDraft['hydrogen'] => {
  if (hydrogen === 'not stated') return emptyDraft.hydrogen;
  return 'class' in hydrogen
    ? { how: 'class', class: hydrogen.class, millilitres: '' }
    : { how: 'measured', class: 'H5', millilitres: text(hydrogen.millilitresPer100Grams) };
};

const heatInputDraft = (stated: Joint['heatInput']): JointDraft['heatInput'] => {
  const empty = emptyDraft.heatInput;
  if (stated === 'not stated') return empty;
  if ('kilojoulesPerMillimetre' in stated)
    return { ...empty, how: 'energy', kilojoules: text(stated.kilojoulesPerMillimetre) };
  if ('instantaneousJoules' in stated)
    return {
      ...empty,
      how: 'waveform energy',
      joules: text(stated.instantaneousJoules),
      bead: text(stated.beadMillimetres),
    };
  const speed = text(stated.millimetresPerSecond);
  if ('instantaneousWatts' in stated)
    return { ...empty, how: 'waveform power', watts: text(stated.instantaneousWatts), speed };
  return { ...empty, how: 'arc', volts: text(stated.volts), amperes: text(stated.amperes), speed };
};

const analysisDraft = (analysis: Joint['parts'][number]['analyses'][number]): AnalysisDraft => ({
  origin: analysis.origin,
  certificate: analysis.certificate ?? '',
  heat: analysis.heat ?? '',
  ...(analysis.document === undefined ? {} : { document: analysis.document }),
  contents: Object.fromEntries(
    Object.entries(analysis.percent).map(([element, content]): [string, ContentDraft] => [
      element,
      content === 'not reported'
        ? { how: 'not reported', text: '' }
        : typeof content === 'number'
          ? { how: 'reported', text: String(content) }
          : { how: 'at most', text: String(content?.atMost ?? '') },
    ]),
  ),
});
