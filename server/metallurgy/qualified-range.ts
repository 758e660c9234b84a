/**
 * How far production may depart from the test piece that qualifies a procedure. Each limit with its clause and how well it
 * is known here; the copy of the standard decides. What a clause hangs on and nobody has stated leaves the value open,
 * never inside.
 */
import type { Joint } from '../weld/joint.ts';
import type { ProcedureQualification } from '../weld/procedure-qualification.ts';
import type { HeatWindow } from '../weld/welding.ts';
import type { Status } from './answer.ts';
import { arcEnergyShown, heatInput } from './heat-input.ts';

/** ASME IX QW-406.1 and QW-406.3: 55 °C (100 °F), as practitioners quote them. */
const asmeDepartureKelvin = 55;
/** ISO 15614-1:2017 + A1:2019, 8.4.8 and 8.4.9: 50 °C, second-hand. */
const isoDepartureKelvin = 50;

export interface Clause {
  readonly name: string;
  readonly status: Status;
}
export type Missing = 'impact tests' | 'material group';

/** A lowest production value; `testedCelsius` is that of the test piece. */
export interface LowerLimit {
  readonly testedCelsius: number;
  readonly atLeastCelsius: number;
  readonly clause: Clause;
}
/** Up to `insideCelsius` it is qualified, above `outsideCelsius` it is not; between them it hangs on what is missing. */
export interface UpperLimit {
  readonly testedCelsius: number;
  readonly insideCelsius: number;
  /** Absent: without what is missing no end is known. */
  readonly outsideCelsius?: number;
  readonly missing?: Missing;
  readonly clause: Clause;
}
export interface QualifiedRange {
  readonly preheat?: LowerLimit;
  /** Absent too where the standard binds the interpass temperature only with impact tests, and none are required. */
  readonly interpass?: UpperLimit;
  readonly maintenance?: LowerLimit;
}

export function qualifiedRange(qualification: ProcedureQualification): QualifiedRange {
  const { preheatCelsius, interpassCelsius, maintenanceCelsius } = qualification;
  const interpass = interpassCelsius === undefined ? undefined : upperLimit(qualification, interpassCelsius);
  return {
    ...(preheatCelsius === undefined ? {} : { preheat: lowerLimit(qualification, preheatCelsius) }),
    ...(interpass === undefined ? {} : { interpass }),
    // QW-406.2 knows no departure: preheat that was maintained is neither left out nor reduced.
    ...(maintenanceCelsius === undefined || qualification.standard !== 'ASME IX'
      ? {}
      : {
          maintenance: {
            testedCelsius: maintenanceCelsius,
            atLeastCelsius: maintenanceCelsius,
            clause: { name: 'ASME IX QW-406.2', status: 'from memory' },
          },
        }),
  };
}

function lowerLimit({ standard }: ProcedureQualification, testedCelsius: number): LowerLimit {
  switch (standard) {
    case 'ASME IX': {
      const clause: Clause = { name: 'ASME IX QW-406.1', status: 'second-hand' };
      return { testedCelsius, atLeastCelsius: testedCelsius - asmeDepartureKelvin, clause };
    }
    case 'ISO 15614-1:2017': {
      const clause: Clause = { name: 'ISO 15614-1:2017 + A1:2019, 8.4.8', status: 'second-hand' };
      return { testedCelsius, atLeastCelsius: testedCelsius - isoDepartureKelvin, clause };
    }
    case 'ISO 15614-1:2004':
      return {
        testedCelsius,
        atLeastCelsius: testedCelsius,
        clause: { name: 'ISO 15614-1:2004', status: 'from memory' },
      };
  }
}

function upperLimit(qualification: ProcedureQualification, testedCelsius: number): UpperLimit | undefined {
  switch (qualification.standard) {
    case 'ASME IX': {
      const clause: Clause = { name: 'ASME IX QW-406.3', status: 'second-hand' };
      const raised = testedCelsius + asmeDepartureKelvin;
      if (qualification.impactTests === 'not required') return undefined;
      return qualification.impactTests === 'required'
        ? { testedCelsius, insideCelsius: raised, outsideCelsius: raised, clause }
        : { testedCelsius, insideCelsius: raised, missing: 'impact tests', clause };
    }
    case 'ISO 15614-1:2017': {
      const clause: Clause = { name: 'ISO 15614-1:2017 + A1:2019, 8.4.9', status: 'second-hand' };
      const raised = testedCelsius + isoDepartureKelvin;
      switch (qualification.interpassRise) {
        case 'allowed':
          return { testedCelsius, insideCelsius: raised, outsideCelsius: raised, clause };
        case 'not allowed':
          return { testedCelsius, insideCelsius: testedCelsius, outsideCelsius: testedCelsius, clause };
        default:
          return {
            testedCelsius,
            insideCelsius: testedCelsius,
            outsideCelsius: raised,
            missing: 'material group',
            clause,
          };
      }
    }
    case 'ISO 15614-1:2004':
      return {
        testedCelsius,
        insideCelsius: testedCelsius,
        outsideCelsius: testedCelsius,
        clause: { name: 'ISO 15614-1:2004', status: 'second-hand' },
      };
  }
}

export type Standing = 'inside' | 'outside' | 'open';
/** What of a procedure is compared with its test piece, and how it stands. Numbers in the unit of the variable. */
export interface Compared {
  readonly variable: 'preheat' | 'interpass' | 'maintenance' | 'post-heating' | 'heat input';
  readonly standing: Standing;
  /** Of the procedure or the joint; absent where it states none. */
  readonly stated?: number;
  readonly tested?: number;
  readonly limit?: number;
  readonly missing?: Missing;
  readonly clause: Clause;
}

export const aboveUpper = (celsius: number, { insideCelsius, outsideCelsius }: UpperLimit): Standing =>
  celsius <= insideCelsius ? 'inside' : outsideCelsius !== undefined && celsius > outsideCelsius ? 'outside' : 'open';

type Stating = Pick<Joint, 'procedure' | 'postHeating'> & Partial<Pick<Joint, 'heatInput' | 'process'>>;

/**
 * The limits of a procedure, or of a joint with its heat input, against the test piece. A procedure that leaves a limit
 * unstated keeps nothing: it stands open.
 */
export function comparedWithTest(stating: Stating): readonly Compared[] {
  const { procedure } = stating;
  const qualification = procedure?.qualification;
  if (procedure === undefined || qualification === undefined) return [];
  const { preheat, interpass, maintenance } = qualifiedRange(qualification);
  return [
    ...(preheat === undefined ? [] : [lower('preheat', preheat, procedure.preheatMinimumCelsius, 'open')]),
    ...(interpass === undefined ? [] : [upper(interpass, procedure.interpassMaximumCelsius)]),
    // Left out is what the clause forbids.
    ...(maintenance === undefined
      ? []
      : [lower('maintenance', maintenance, procedure.maintenanceMinimumCelsius, 'outside')]),
    ...postHeatingCompared(qualification, stating.postHeating),
    ...heatInputCompared(qualification, stating),
  ];
}

function lower(
  variable: 'preheat' | 'maintenance',
  { testedCelsius: tested, atLeastCelsius: limit, clause }: LowerLimit,
  stated: number | undefined,
  ifUnstated: Standing,
): Compared {
  const standing = stated === undefined ? ifUnstated : stated >= limit ? 'inside' : 'outside';
  return { variable, standing, ...(stated === undefined ? {} : { stated }), tested, limit, clause };
}

function upper(limit: UpperLimit, stated: number | undefined): Compared {
  const { testedCelsius: tested, clause, missing } = limit;
  const standing = stated === undefined ? 'open' : aboveUpper(stated, limit);
  return {
    variable: 'interpass',
    standing,
    ...(stated === undefined ? {} : { stated }),
    tested,
    limit: standing === 'open' ? limit.insideCelsius : (limit.outsideCelsius ?? limit.insideCelsius),
    ...(standing === 'open' && stated !== undefined && missing !== undefined ? { missing } : {}),
    clause,
  };
}

/** QW-406.11: adding post-heating, or leaving it out, is a change of the procedure. */
function postHeatingCompared(
  { standard, postHeating }: ProcedureQualification,
  asked: Joint['postHeating'],
): Compared[] {
  if (postHeating === undefined || standard !== 'ASME IX') return [];
  const clause: Clause = { name: 'ASME IX QW-406.11', status: 'verified' };
  const standing = (postHeating === 'none') === (asked === undefined) ? 'inside' : 'outside';
  return [
    {
      variable: 'post-heating',
      standing,
      ...(asked === undefined ? {} : { stated: asked.celsius }),
      ...(postHeating === 'none' ? {} : { tested: postHeating.celsius }),
      clause,
    },
  ];
}

/** The range stands in the qualification record; no departure is worked out here. The window of the passes counts, else the joint's heat input. */
function heatInputCompared(qualification: ProcedureQualification, stating: Stating): Compared[] {
  const range = qualification.heatInput;
  if (range === undefined) return [];
  const clause: Clause = { name: qualification.record, status: 'entered' };
  const window = stating.procedure?.heatInput;
  if (window !== undefined) return [windowCompared(range, window, clause)];
  if (stating.heatInput === undefined || stating.process === undefined) return [];
  const joint = stating as Joint;
  const stated = range.counted === 'arc energy' ? arcEnergyShown(joint)?.value : statedHeatInput(joint);
  if (stated === undefined) return [{ variable: 'heat input', standing: 'open', clause }];
  const { minimumKilojoulesPerMillimetre: least, maximumKilojoulesPerMillimetre: most } = range;
  const tooLittle = least !== undefined && stated < least;
  const limit = tooLittle ? least : (most ?? least);
  const standing = tooLittle || (most !== undefined && stated > most) ? 'outside' : 'inside';
  return [{ variable: 'heat input', standing, stated, ...(limit === undefined ? {} : { limit }), clause }];
}

/** Both ends of the window within those of the range. Energies with and without k do not compare. */
function windowCompared(range: HeatWindow, window: HeatWindow, clause: Clause): Compared {
  const ends = [
    endOf('minimumKilojoulesPerMillimetre', (stated, limit) => stated >= limit),
    endOf('maximumKilojoulesPerMillimetre', (stated, limit) => stated <= limit),
  ].filter((end) => end !== undefined);
  const shown = ends.find(({ standing }) => standing === 'outside') ?? ends.find(({ standing }) => standing === 'open');
  return { variable: 'heat input', ...(shown ?? ends.at(-1) ?? { standing: 'open' }), clause };

  function endOf(
    field: 'minimumKilojoulesPerMillimetre' | 'maximumKilojoulesPerMillimetre',
    keeps: (stated: number, limit: number) => boolean,
  ): Pick<Compared, 'standing' | 'stated' | 'limit'> | undefined {
    const [limit, stated] = [range[field], window[field]];
    if (limit === undefined) return undefined;
    if (stated === undefined || range.counted !== window.counted) return { standing: 'open', limit };
    return { standing: keeps(stated, limit) ? 'inside' : 'outside', stated, limit };
  }
}

function statedHeatInput(joint: Joint): number | undefined {
  const fact = heatInput(joint);
  return fact.known ? fact.input.value : undefined;
}
