/**
 * A joint while it is being entered: everything as the text that was typed, so that nothing is lost, rounded
 * or guessed before it is whole. What is not known is said so and never stands as an empty number. An empty
 * choice is one that nobody has made.
 */
import type { Element } from '../../../server/weld/composition.ts';
import type { ProcedureRevision } from '../../../server/weld/procedure-revision.ts';
import type { BreakDraft } from './break-draft.ts';
import type { ChecksDraft } from './check-draft.ts';
import type { PassesDraft } from './passes-draft.ts';
import type { DraftUnits } from './quantity.ts';
import type { RepairDraft } from './repair-draft.ts';

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
  readonly form: string;
  readonly diameter: string;
  readonly kind: string;
  readonly yield: string;
  readonly tensile: string;
  readonly pNumber: string;
  readonly awsCategory: string;
  /** What lies behind the face that is not heated. */
  readonly farSide: string;
  /** Thermal properties to compute with. */
  readonly conductsAs: string;
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
  /** Wire lot and extension cable by their ids in the register of instruments. */
  readonly wire: string;
  readonly extension: string;
  /** How far its fixing can put the reading off. */
  readonly attachment: string;
  readonly attachedBy: string;
}

export interface ChartReadingDraft {
  readonly method: string;
  readonly chart: string;
  readonly scale: string;
  /** Empty: for the whole joint. */
  readonly part: string;
  readonly combinedThickness: string;
  readonly heatInput: string;
  readonly equivalent: string;
  readonly minimum: string;
  readonly role: string;
}

export interface QualificationDraft {
  readonly stated: boolean;
  readonly record: string;
  readonly standard: string;
  readonly edition: string;
  readonly preheat: string;
  readonly interpass: string;
  readonly maintenance: string;
  readonly postHeating: 'not known' | 'none' | 'made';
  readonly postHeatingAt: string;
  readonly postHeatingHours: string;
  /** Of the heat input; empty where no range is stated. */
  readonly counted: string;
  readonly leastHeatInput: string;
  readonly mostHeatInput: string;
  readonly impactTests: string;
  readonly interpassRise: string;
}

export interface JointDraft {
  readonly format: 'joint draft 2';
  readonly title: string;
  readonly id: string;
  /** Until it is typed by hand, the id follows the title. */
  readonly idTyped: boolean;
  readonly workshop: string;
  readonly drawing: string;
  readonly contact: string;
  readonly jointType: string;
  readonly units: DraftUnits;
  readonly codeSet: string;
  readonly restraint: string;
  readonly restraintIntensity: string;
  readonly stressConcentration: string;
  readonly meanStress: string;
  readonly crackingZone: string;
  readonly parts: readonly PartDraft[];
  readonly designation: string;
  readonly deposit: string;
  /** Hydrogen by the old glycerine method. */
  readonly glycerine: string;
  readonly hydrogen: {
    readonly how: 'class' | 'measured' | 'not stated';
    readonly class: string;
    readonly millilitres: string;
  };
  /** Analysis of the weld metal, where it is given. */
  readonly weldMetal: readonly AnalysisDraft[];
  readonly process: string;
  readonly heatInput: {
    readonly how: 'energy' | 'arc' | 'waveform energy' | 'waveform power' | 'not stated';
    readonly kilojoules: string;
    readonly volts: string;
    readonly amperes: string;
    readonly speed: string;
    readonly joules: string;
    readonly bead: string;
    readonly watts: string;
  };
  readonly weldShape: string;
  readonly weldSize: string;
  /** Window of the cooling time from 800 to 500 °C, seconds. */
  readonly cooling: { readonly minimum: string; readonly maximum: string };
  readonly heating: {
    readonly means: string;
    readonly face: string;
    readonly whileWelding: string;
    /** Of the heated band, from the edge of the groove. */
    readonly halfWidth: string;
    readonly air: string;
    readonly setPoint: string;
  };
  readonly procedure: {
    readonly bound: boolean;
    readonly id: string;
    readonly revision: string;
    readonly title: string;
    readonly codeEdition: string;
    /** Kept through a correction; not edited here. */
    readonly document?: string;
    readonly minimum: string;
    readonly interpass: string;
    readonly maintenance: string;
    readonly highest: string;
    readonly evenness: string;
    readonly hold: string;
    /** Hold at the minimum all through the thickness. */
    readonly throughHold: string;
    readonly places: string;
    readonly decisionRule: string;
    /** Width of the guard band in standard uncertainties. */
    readonly guardFactor: string;
    readonly calibration: string;
    readonly twinHours: string;
    readonly ambientCheck: string;
  };
  readonly breaks: BreakDraft;
  readonly checking: ChecksDraft;
  /** Only of a repair. */
  readonly repair?: RepairDraft;
  /** The test piece that qualifies the procedure. */
  readonly qualification: QualificationDraft;
  /** The recorded revision that the procedure is: its values count as they are there, whatever stands in the fields. */
  readonly recorded?: { readonly sha256: string; readonly revision: ProcedureRevision };
  readonly codeFloor: { readonly stated: boolean; readonly celsius: string; readonly source: string };
  readonly bindingMethods: readonly string[];
  readonly chartReadings: readonly ChartReadingDraft[];
  readonly postHeating: {
    readonly temperature: string;
    readonly maximum: string;
    readonly hours: string;
    readonly counted: string;
  };
  /** Input that is on while an arc burns; both empty where none is wired. */
  readonly arc: { readonly board: string; readonly input: string };
  /** What the procedure asks of each pass. */
  readonly passes: PassesDraft;
  /** Rates, cooling and spots, as the procedure asks for them. */
  readonly afterWelding: {
    readonly heatingRate: string;
    readonly coolingRate: string;
    readonly ratesAbove: string;
    readonly coveredTo: string;
    readonly coolBefore: string;
    readonly within: string;
    readonly ambient: string;
    readonly spots: string;
  };
  readonly waitingEdition: string;
  readonly probes: readonly ProbeDraft[];
  /** Fields of the joint that this form does not know, kept as they are through a correction. */
  readonly carried: Readonly<Record<string, unknown>>;
}
