/**
 * A joint while it is being entered: everything as the text that was typed, so that nothing is lost, rounded
 * or guessed before it is whole. What is not known is said so and never stands as an empty number.
 */
import type { elements } from '../../../server/weld/composition.ts';
import type { Joint } from '../../../server/weld/joint.ts';

type Element = (typeof elements)[number];

export interface ContentDraft {
  readonly how: 'reported' | 'at most' | 'not reported';
  readonly text: string;
}

export interface AnalysisDraft {
  readonly origin: string;
  readonly certificate: string;
  readonly heat: string;
  /** Kept through a correction; not edited here. */
  readonly document?: string;
  readonly contents: Readonly<Partial<Record<Element, ContentDraft>>>;
}

export interface PartDraft {
  readonly id: string;
  readonly side: string;
  readonly grade: string;
  readonly thickness: string;
  readonly analyses: readonly AnalysisDraft[];
}

export interface ProbeDraft {
  readonly id: string;
  readonly board: string;
  readonly channel: string;
  readonly thermocouple: string;
  readonly use: string;
  readonly placed: boolean;
  readonly part: string;
  readonly side: string;
  readonly face: string;
  readonly distance: string;
  readonly clock: string;
}

export interface JointDraft {
  readonly format: 'joint draft 1';
  readonly title: string;
  readonly id: string;
  /** Until it is typed by hand, the id follows the title. */
  readonly idTyped: boolean;
  readonly workshop: string;
  readonly drawing: string;
  readonly jointType: string;
  readonly parts: readonly PartDraft[];
  readonly designation: string;
  readonly hydrogen: {
    readonly how: 'class' | 'measured' | 'not stated';
    readonly class: string;
    readonly millilitres: string;
  };
  /** Analysis of the weld metal, where it is given. */
  readonly weldMetal: readonly AnalysisDraft[];
  readonly process: string;
  readonly heatInput: {
    readonly how: 'energy' | 'arc' | 'not stated';
    readonly kilojoules: string;
    readonly volts: string;
    readonly amperes: string;
    readonly speed: string;
  };
  readonly heating: { readonly means: string; readonly face: string; readonly whileWelding: string };
  readonly procedure: {
    readonly bound: boolean;
    readonly id: string;
    readonly revision: string;
    readonly minimum: string;
    readonly interpass: string;
    readonly maintenance: string;
    readonly highest: string;
    readonly evenness: string;
    readonly hold: string;
    readonly places: string;
  };
  readonly codeFloor: { readonly stated: boolean; readonly celsius: string; readonly source: string };
  readonly bindingMethods: readonly string[];
  readonly probes: readonly ProbeDraft[];
}

export const emptyAnalysis: AnalysisDraft = { origin: 'heat certificate', certificate: '', heat: '', contents: {} };

export const emptyPart = (id: string, side: string): PartDraft => ({
  id,
  side,
  grade: '',
  thickness: '',
  analyses: [emptyAnalysis],
});

export const emptyDraft: JointDraft = {
  format: 'joint draft 1',
  title: '',
  id: '',
  idTyped: false,
  workshop: '',
  drawing: '',
  jointType: 'plate butt',
  parts: [emptyPart('plate A', 'A'), emptyPart('plate B', 'B')],
  designation: '',
  hydrogen: { how: 'not stated', class: 'H5', millilitres: '' },
  weldMetal: [],
  process: '111',
  heatInput: { how: 'not stated', kilojoules: '', volts: '', amperes: '', speed: '' },
  heating: { means: 'resistance pads', face: 'back', whileWelding: 'off' },
  procedure: {
    bound: false,
    id: '',
    revision: '',
    minimum: '',
    interpass: '',
    maintenance: '',
    highest: '',
    evenness: '',
    hold: '',
    places: '',
  },
  codeFloor: { stated: false, celsius: '', source: '' },
  bindingMethods: [],
  probes: [],
};

export const isDraft = (value: unknown): value is JointDraft =>
  typeof value === 'object' && value !== null && (value as { format?: unknown }).format === 'joint draft 1';

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

const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

/** From a joint, to correct it or to go on from a file. */
export const draftOf = (joint: Joint): JointDraft => {
  const { procedure, codeFloor, heatInput, consumable } = joint;
  const { hydrogen } = consumable;
  return {
    format: 'joint draft 1',
    title: joint.title,
    id: joint.id,
    idTyped: true,
    workshop: joint.workshop ?? '',
    drawing: joint.drawing ?? '',
    jointType: joint.jointType,
    parts: joint.parts.map((part) => ({
      id: part.id,
      side: part.side,
      grade: part.grade ?? '',
      thickness: text(part.thicknessMillimetres),
      analyses: part.analyses.map(analysisDraft),
    })),
    designation: consumable.designation ?? '',
    hydrogen:
      hydrogen === 'not stated'
        ? emptyDraft.hydrogen
        : 'class' in hydrogen
          ? { how: 'class', class: hydrogen.class, millilitres: '' }
          : { how: 'measured', class: 'H5', millilitres: text(hydrogen.millilitresPer100Grams) },
    weldMetal: consumable.weldMetal === undefined ? [] : [analysisDraft(consumable.weldMetal)],
    process: joint.process,
    heatInput:
      heatInput === 'not stated'
        ? emptyDraft.heatInput
        : 'volts' in heatInput
          ? {
              how: 'arc',
              kilojoules: '',
              volts: text(heatInput.volts),
              amperes: text(heatInput.amperes),
              speed: text(heatInput.millimetresPerSecond),
            }
          : 'kilojoulesPerMillimetre' in heatInput
            ? { ...emptyDraft.heatInput, how: 'energy', kilojoules: text(heatInput.kilojoulesPerMillimetre) }
            : emptyDraft.heatInput,
    heating: joint.heating,
    procedure: {
      bound: procedure !== undefined,
      id: procedure?.id ?? '',
      revision: procedure?.revision ?? '',
      minimum: text(procedure?.preheatMinimumCelsius),
      interpass: text(procedure?.interpassMaximumCelsius),
      maintenance: text(procedure?.maintenanceMinimumCelsius),
      highest: text(procedure?.highestCelsius),
      evenness: text(procedure?.evennessMaximumKelvin),
      hold: text(procedure?.soakHoldMinutes),
      places: text(procedure?.zonePlacesRequired),
    },
    codeFloor: {
      stated: codeFloor !== undefined,
      celsius: text(codeFloor?.preheatMinimumCelsius),
      source: codeFloor?.source ?? '',
    },
    bindingMethods: joint.bindingMethods ?? [],
    probes: joint.probes.map(({ id, board, channel, thermocouple, use, place }) => ({
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
    })),
  };
};

const analysisDraft = ({
  origin,
  certificate,
  heat,
  document,
  percent,
}: Joint['parts'][number]['analyses'][number]): AnalysisDraft => ({
  origin,
  certificate: certificate ?? '',
  heat: heat ?? '',
  ...(document === undefined ? {} : { document }),
  contents: Object.fromEntries(
    Object.entries(percent).map(([element, content]): [string, ContentDraft] => [
      element,
      content === 'not reported'
        ? { how: 'not reported', text: '' }
        : typeof content === 'number'
          ? { how: 'reported', text: String(content) }
          : { how: 'at most', text: String(content?.atMost ?? '') },
    ]),
  ),
});
