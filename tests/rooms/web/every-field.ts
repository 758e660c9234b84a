/** A joint that states everything a joint file can hold, so that no field is lost on its way through the form. Invented. */
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { girder } from '../../support/station/joints.ts';

const document = 'ab'.repeat(32);
const [first, second] = girder.parts;

export const everyField: Joint = jointSchema.parse({
  ...girder,
  id: 'every-field',
  contact: 'Foreman, extension 12',
  units: 'metric',
  codeSet: 'AWS D1.1',
  restraint: 'high',
  restraintIntensity: 12_500,
  stressConcentration: 1.5,
  meanWeldStressMegapascals: 490,
  crackingZone: 'II',
  parts: [
    {
      ...first!,
      form: 'tube',
      outsideDiameterMillimetres: 508,
      kind: 'C-Mn and fine grain',
      yieldMegapascals: 355,
      tensileMegapascals: 470,
      pNumber: '1',
      awsCategory: 'B',
      farSide: 'still air',
      conductsAs: 'low-alloy',
      analyses: [
        { ...first!.analyses[0]!, document },
        { origin: 'product analysis', heat: '4712', percent: { C: 0.18, Nb: { atMost: 0.02 }, B: 'not reported' } },
      ],
    },
    second!,
  ],
  consumable: {
    ...girder.consumable,
    deposit: 'ferritic',
    glycerineMillilitresPer100Grams: 2.5,
    weldMetal: { origin: 'product analysis', percent: { C: 0.06, Mn: 1.3 } },
  },
  heating: { ...girder.heating, halfWidthMillimetres: 320, airCelsius: -7.5, setPointCelsius: 175 },
  heatInput: { instantaneousJoules: 160_000, beadMillimetres: 120 },
  probes: girder.probes.map((probe, index) =>
    index === 0
      ? {
          ...probe,
          wire: 'W-1',
          extension: 'X-1',
          attachmentErrorKelvin: 1.25,
          attachedBy: 'capacitor discharge' as const,
        }
      : probe,
  ),
  instruments: [
    {
      id: 'W-1',
      kind: 'wire lot',
      thermocouple: girder.probes[0]!.thermocouple,
      toleranceClass: 'IEC 60584-1 class 1',
      certificate: 'C-17',
      calibratedOn: '2026-01-10',
      dueOn: '2027-01-09',
      corrections: [{ atCelsius: 150, correctionKelvin: -0.4, expandedKelvin: 0.8, coverageFactor: 2 }],
    },
    {
      id: 'X-1',
      kind: 'extension cable',
      thermocouple: girder.probes[0]!.thermocouple,
      toleranceClass: 'IEC 60584-3 class 2',
    },
    { id: 'B-1', kind: 'board', board: girder.probes[0]!.board, maximumErrorKelvin: 1.5, coldJunctionErrorKelvin: 0.7 },
    { id: 'CT-1', kind: 'contact thermometer', maximumErrorKelvin: 2 },
  ],
  procedure: {
    ...girder.procedure!,
    decisionRule: 'guarded',
    guardFactor: 1.645,
    calibration: 'required',
    twinReadingHours: 12,
    ambientCheck: 'required',
    document,
    evennessMaximumKelvin: 30,
    soakHoldMinutes: 15,
    throughThicknessHoldMinutes: 10,
    zonePlacesRequired: 4,
    heatingMaximumKelvinPerHour: 150,
    coolingMaximumKelvinPerHour: 55,
    ratesAboveCelsius: 200,
    coveredToCelsius: 100,
    coolBeforeHeatTreatmentCelsius: 80,
    heatTreatmentWithinHours: 8,
    ambientCelsius: 40,
    probeSpots: 'examined',
    heatInput: { counted: 'arc energy', minimumKilojoulesPerMillimetre: 0.9, maximumKilojoulesPerMillimetre: 1.8 },
  },
  codeFloor: { preheatMinimumCelsius: 65, source: 'table of the code, row 3' },
  bindingMethods: ['en-1011-2-method-b'],
  chartReadings: [
    {
      method: 'EN 1011-2 method A',
      chart: 'figure C.2 e, edition 2001',
      scale: 'D',
      part: first!.id,
      combinedThicknessMillimetres: 140,
      heatInputKilojoulesPerMillimetre: 1.6,
      carbonEquivalentPercent: 0.43,
      preheatMinimumCelsius: 125,
      role: 'may govern',
    },
  ],
  weldShape: 'between runs of a butt weld',
  coolingSeconds: { minimum: 8, maximum: 20 },
  weldSizeMillimetres: 60,
  waitingEdition: 'EN 1090-2:2008',
  postHeating: { celsius: 250, hours: 4, maximumCelsius: 300, counted: 'cumulative' },
});
