/** Which fields of the draft carry a unit of the job: the one list by which a draft is turned from one system to the other. */
import type { JointDraft } from './draft.ts';
import { converted, type DraftUnits, type QuantityKind } from './quantity.ts';

/** The draft in the other units: every number converted, what is no number left as it was typed. */
export const inUnits = (draft: JointDraft, units: DraftUnits): JointDraft => ({
  ...quantitiesMapped(draft, (text, kind) => converted(text, kind, draft.units, units)),
  units,
});

export const quantitiesMapped = (draft: JointDraft, map: (text: string, kind: QuantityKind) => string): JointDraft => {
  const { heatInput, heating, procedure, qualification, codeFloor, postHeating, passes, afterWelding } = draft;
  return {
    ...draft,
    parts: draft.parts.map((part) => ({
      ...part,
      thickness: map(part.thickness, 'length'),
      diameter: map(part.diameter, 'length'),
      yield: map(part.yield, 'strength'),
      tensile: map(part.tensile, 'strength'),
    })),
    heatInput: {
      ...heatInput,
      kilojoules: map(heatInput.kilojoules, 'heat input'),
      speed: map(heatInput.speed, 'speed'),
      bead: map(heatInput.bead, 'length'),
    },
    weldSize: map(draft.weldSize, 'length'),
    ...(draft.repair === undefined
      ? {}
      : {
          repair: {
            ...draft.repair,
            depth: map(draft.repair.depth, 'length'),
            length: map(draft.repair.length, 'length'),
            width: map(draft.repair.width, 'length'),
          },
        }),
    heating: {
      ...heating,
      halfWidth: map(heating.halfWidth, 'length'),
      air: map(heating.air, 'temperature'),
      setPoint: map(heating.setPoint, 'temperature'),
    },
    meanStress: map(draft.meanStress, 'strength'),
    procedure: {
      ...procedure,
      minimum: map(procedure.minimum, 'temperature'),
      interpass: map(procedure.interpass, 'temperature'),
      maintenance: map(procedure.maintenance, 'temperature'),
      highest: map(procedure.highest, 'temperature'),
      evenness: map(procedure.evenness, 'difference'),
    },
    qualification: {
      ...qualification,
      preheat: map(qualification.preheat, 'temperature'),
      interpass: map(qualification.interpass, 'temperature'),
      maintenance: map(qualification.maintenance, 'temperature'),
      postHeatingAt: map(qualification.postHeatingAt, 'temperature'),
      leastHeatInput: map(qualification.leastHeatInput, 'heat input'),
      mostHeatInput: map(qualification.mostHeatInput, 'heat input'),
    },
    codeFloor: { ...codeFloor, celsius: map(codeFloor.celsius, 'temperature') },
    chartReadings: draft.chartReadings.map((reading) => ({
      ...reading,
      combinedThickness: map(reading.combinedThickness, 'length'),
      heatInput: map(reading.heatInput, 'heat input'),
      minimum: map(reading.minimum, 'temperature'),
    })),
    postHeating: {
      ...postHeating,
      temperature: map(postHeating.temperature, 'temperature'),
      maximum: map(postHeating.maximum, 'temperature'),
    },
    passes: { ...passes, least: map(passes.least, 'heat input'), most: map(passes.most, 'heat input') },
    afterWelding: {
      ...afterWelding,
      heatingRate: map(afterWelding.heatingRate, 'difference'),
      coolingRate: map(afterWelding.coolingRate, 'difference'),
      ratesAbove: map(afterWelding.ratesAbove, 'temperature'),
      coveredTo: map(afterWelding.coveredTo, 'temperature'),
      coolBefore: map(afterWelding.coolBefore, 'temperature'),
      ambient: map(afterWelding.ambient, 'temperature'),
    },
    probes: draft.probes.map((probe) => ({
      ...probe,
      distance: map(probe.distance, 'length'),
      attachment: map(probe.attachment, 'difference'),
    })),
  };
};
