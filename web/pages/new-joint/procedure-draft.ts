/** What a procedure states as it stands in the form: out of a joint, or out of a recorded revision that is chosen for one. */
import type { Joint } from '../../../server/weld/joint.ts';
import { besideFields, carriedRevision, type ProcedureRevision } from '../../../server/weld/procedure-revision.ts';
import { breakDraftOf } from './break-draft.ts';
import { checksDraftOf } from './check-draft.ts';
import type { JointDraft, QualificationDraft } from './draft.ts';
import { inUnits } from './draft-units.ts';
import { emptyDraft } from './empty-draft.ts';
import { passesDraftOf } from './passes-draft.ts';

export const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

type Stating = Pick<Joint, 'procedure' | (typeof besideFields)[number]>;
type Stated = Pick<
  JointDraft,
  | 'procedure'
  | 'breaks'
  | 'checking'
  | 'passes'
  | 'qualification'
  | 'afterWelding'
  | 'codeSet'
  | 'cooling'
  | 'postHeating'
  | 'waitingEdition'
>;

/** In metric units. */
export function statedDraft(joint: Stating): Stated {
  const { procedure } = joint;
  return {
    procedure: {
      bound: procedure !== undefined,
      id: procedure?.id ?? '',
      revision: procedure?.revision ?? '',
      title: procedure?.title ?? '',
      codeEdition: procedure?.codeEdition ?? '',
      ...(procedure?.document === undefined ? {} : { document: procedure.document }),
      minimum: text(procedure?.preheatMinimumCelsius),
      interpass: text(procedure?.interpassMaximumCelsius),
      maintenance: text(procedure?.maintenanceMinimumCelsius),
      highest: text(procedure?.highestCelsius),
      evenness: text(procedure?.evennessMaximumKelvin),
      hold: text(procedure?.soakHoldMinutes),
      throughHold: text(procedure?.throughThicknessHoldMinutes),
      places: text(procedure?.zonePlacesRequired),
      decisionRule: procedure?.decisionRule ?? emptyDraft.procedure.decisionRule,
      guardFactor: text(procedure?.guardFactor),
      calibration: procedure?.calibration ?? '',
      twinHours: text(procedure?.twinReadingHours),
      ambientCheck: procedure?.ambientCheck ?? '',
    },
    breaks: breakDraftOf(procedure?.breaks),
    checking: checksDraftOf(procedure),
    passes: passesDraftOf(procedure),
    qualification: qualificationDraft(procedure?.qualification),
    codeSet: joint.codeSet ?? '',
    cooling: { minimum: text(joint.coolingSeconds?.minimum), maximum: text(joint.coolingSeconds?.maximum) },
    postHeating: {
      temperature: text(joint.postHeating?.celsius),
      maximum: text(joint.postHeating?.maximumCelsius),
      hours: text(joint.postHeating?.hours),
      counted: joint.postHeating?.counted ?? '',
    },
    afterWelding: {
      heatingRate: text(procedure?.heatingMaximumKelvinPerHour),
      coolingRate: text(procedure?.coolingMaximumKelvinPerHour),
      ratesAbove: text(procedure?.ratesAboveCelsius),
      coveredTo: text(procedure?.coveredToCelsius),
      coolBefore: text(procedure?.coolBeforeHeatTreatmentCelsius),
      within: text(procedure?.heatTreatmentWithinHours),
      ambient: text(procedure?.ambientCelsius),
      spots: procedure?.probeSpots ?? '',
    },
    waitingEdition: joint.waitingEdition ?? '',
  };
}

type Qualification = NonNullable<NonNullable<Joint['procedure']>['qualification']>;

function qualificationDraft(of: Qualification | undefined): QualificationDraft {
  if (of === undefined) return emptyDraft.qualification;
  const { postHeating, heatInput } = of;
  const made = typeof postHeating === 'object' ? postHeating : undefined;
  return {
    stated: true,
    record: of.record,
    standard: of.standard,
    edition: of.edition ?? '',
    preheat: text(of.preheatCelsius),
    interpass: text(of.interpassCelsius),
    maintenance: text(of.maintenanceCelsius),
    postHeating: postHeating === undefined ? 'not known' : postHeating === 'none' ? 'none' : 'made',
    postHeatingAt: text(made?.celsius),
    postHeatingHours: text(made?.hours),
    counted: heatInput?.counted ?? '',
    leastHeatInput: text(heatInput?.minimumKilojoulesPerMillimetre),
    mostHeatInput: text(heatInput?.maximumKilojoulesPerMillimetre),
    impactTests: of.impactTests ?? '',
    interpassRise: of.interpassRise ?? '',
  };
}

/** The recorded revision that the joint is bound to. */
export function recordedIn(joint: Joint): Pick<JointDraft, 'recorded'> {
  const revision = carriedRevision(joint);
  return revision === undefined ? {} : { recorded: { sha256: joint.boundRevision!.sha256, revision } };
}

/** The draft with the values of a recorded revision; what no revision states, this one or the one before, stays as it was typed. */
export function withRecorded(draft: JointDraft, revision: ProcedureRevision, sha256: string): JointDraft {
  const values = statedDraft(revision);
  const ofNone = besideFields
    .filter((field) => revision[field] === undefined && draft.recorded?.revision[field] === undefined)
    .map((field): string => draftNames[field]);
  const stated = Object.keys(values).filter((name) => !ofNone.includes(name)) as (keyof Stated)[];
  const shown = revisionDraft(revision, draft.units);
  return {
    ...draft,
    ...Object.fromEntries(stated.map((name) => [name, shown[name]])),
    recorded: { sha256, revision },
  };
}

/** By hand again: the values stay to be gone on from. */
export function withoutRecorded({ recorded: _, ...draft }: JointDraft): JointDraft {
  return draft;
}

/** The draft of a revision alone, in the units asked for. */
export const revisionDraft = (revision: ProcedureRevision, units: JointDraft['units']): JointDraft =>
  inUnits({ ...emptyDraft, ...statedDraft(revision), units: 'metric' }, units);

const draftNames = {
  codeSet: 'codeSet',
  coolingSeconds: 'cooling',
  waitingEdition: 'waitingEdition',
  postHeating: 'postHeating',
} as const satisfies Record<(typeof besideFields)[number], keyof JointDraft>;
