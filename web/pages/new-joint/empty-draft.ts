/** What the form begins with, and what an older draft of this device becomes. */
import { emptyBreaks } from './break-draft.ts';
import { emptyChecks } from './check-draft.ts';
import type { AnalysisDraft, ChartReadingDraft, JointDraft, PartDraft } from './draft.ts';
import { emptyPasses } from './passes-draft.ts';

export const emptyAnalysis: AnalysisDraft = { origin: 'heat certificate', certificate: '', heat: '', contents: {} };

export const emptyPart = (id: string, side: string): PartDraft => ({
  id,
  side,
  grade: '',
  thickness: '',
  form: '',
  diameter: '',
  kind: '',
  yield: '',
  tensile: '',
  pNumber: '',
  awsCategory: '',
  farSide: '',
  conductsAs: '',
  analyses: [emptyAnalysis],
});

export const emptyReading: ChartReadingDraft = {
  method: 'EN 1011-2 method A',
  chart: '',
  scale: '',
  part: '',
  combinedThickness: '',
  heatInput: '',
  equivalent: '',
  minimum: '',
  role: 'may govern',
};

/** A probe of which nobody said what its reading comes through. */
export const emptyChain = { wire: '', extension: '', attachment: '', attachedBy: '' } as const;

export const emptyDraft: JointDraft = {
  format: 'joint draft 2',
  title: '',
  id: '',
  idTyped: false,
  workshop: '',
  drawing: '',
  contact: '',
  jointType: 'plate butt',
  units: 'metric',
  codeSet: '',
  restraint: '',
  restraintIntensity: '',
  stressConcentration: '',
  meanStress: '',
  crackingZone: '',
  parts: [emptyPart('plate A', 'A'), emptyPart('plate B', 'B')],
  designation: '',
  deposit: '',
  glycerine: '',
  hydrogen: { how: 'not stated', class: 'H5', millilitres: '' },
  weldMetal: [],
  process: '111',
  heatInput: {
    how: 'not stated',
    kilojoules: '',
    volts: '',
    amperes: '',
    speed: '',
    joules: '',
    bead: '',
    watts: '',
  },
  weldShape: '',
  weldSize: '',
  cooling: { minimum: '', maximum: '' },
  heating: {
    means: 'resistance pads',
    face: 'back',
    whileWelding: 'off',
    halfWidth: '',
    air: '',
    setPoint: '',
  },
  procedure: {
    bound: false,
    id: '',
    revision: '',
    title: '',
    codeEdition: '',
    minimum: '',
    interpass: '',
    maintenance: '',
    highest: '',
    evenness: '',
    hold: '',
    throughHold: '',
    places: '',
    decisionRule: 'simple acceptance',
    guardFactor: '',
    calibration: '',
    twinHours: '',
    ambientCheck: '',
  },
  breaks: emptyBreaks,
  checking: emptyChecks,
  qualification: {
    stated: false,
    record: '',
    standard: 'ASME IX',
    edition: '',
    preheat: '',
    interpass: '',
    maintenance: '',
    postHeating: 'not known',
    postHeatingAt: '',
    postHeatingHours: '',
    counted: '',
    leastHeatInput: '',
    mostHeatInput: '',
    impactTests: '',
    interpassRise: '',
  },
  codeFloor: { stated: false, celsius: '', source: '' },
  bindingMethods: [],
  chartReadings: [],
  postHeating: { temperature: '', maximum: '', hours: '', counted: '' },
  arc: { board: '', input: '' },
  passes: emptyPasses,
  afterWelding: {
    heatingRate: '',
    coolingRate: '',
    ratesAbove: '',
    coveredTo: '',
    coolBefore: '',
    within: '',
    ambient: '',
    spots: '',
  },
  waitingEdition: '',
  probes: [],
  carried: {},
};

/** A draft of this form, or of one before it. */
export type KeptDraft = Partial<JointDraft> & { readonly format: string };

export const isDraft = (value: unknown): value is KeptDraft => {
  if (typeof value !== 'object' || value === null) return false;
  const { format } = value as { readonly format?: unknown };
  return format === 'joint draft 1' || format === 'joint draft 2';
};

/** Every field that an older draft does not hold is empty; whoever typed it has stated no units. */
export const draftFrom = (kept: KeptDraft): JointDraft => ({
  ...emptyDraft,
  units: '',
  ...kept,
  format: 'joint draft 2',
  parts: (kept.parts ?? emptyDraft.parts).map((part) => ({ ...emptyPart('', 'A'), ...part })),
  heatInput: { ...emptyDraft.heatInput, ...kept.heatInput },
  heating: { ...emptyDraft.heating, ...kept.heating },
  procedure: { ...emptyDraft.procedure, ...kept.procedure },
  breaks: { ...emptyBreaks, ...kept.breaks },
  checking: { ...emptyChecks, ...kept.checking },
  qualification: { ...emptyDraft.qualification, ...kept.qualification },
  postHeating: { ...emptyDraft.postHeating, ...kept.postHeating },
  arc: { ...emptyDraft.arc, ...kept.arc },
  passes: { ...emptyDraft.passes, ...kept.passes },
  afterWelding: { ...emptyDraft.afterWelding, ...kept.afterWelding },
  probes: (kept.probes ?? []).map((probe) => ({ ...emptyChain, ...probe })),
});

/** An id made of a title: small letters, digits and hyphens. */
export const idOf = (title: string): string =>
  title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
