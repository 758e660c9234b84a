/**
 * The object as a joint file would hold it, made of what was typed. Numbers that cannot be read are left out, and
 * told at their field; a group of which a part is filled asks for the rest.
 */
import { type NumberText, readNumber } from '../../../server/measure/number-text.ts';
import { breaksOf } from './break-draft.ts';
import type { AnalysisDraft, ChartReadingDraft, JointDraft, PartDraft, ProbeDraft } from './draft.ts';
import { type QuantityKind, readQuantity, unitOf } from './quantity.ts';

export interface RawJoint {
  readonly joint: unknown;
  /** What is wrong with a text as such, by field. */
  readonly problems: Readonly<Record<string, string>>;
  /** What was typed in inch units, with its unit, and the metric unit that it was turned into, by field. */
  readonly typed: Readonly<Record<string, readonly [typed: string, metric: string]>>;
}

export const rawJoint = (draft: JointDraft): RawJoint => {
  const reader = createReader(draft);
  return { joint: jointOf(draft, reader), problems: reader.problems, typed: reader.typed };
};

const jointOf = (draft: JointDraft, { number, quantity }: Reader): unknown => {
  const { procedure, codeFloor, cooling, postHeating, afterWelding: after } = draft;
  return clean({
    ...draft.carried,
    format: 'preheat joint 1',
    id: draft.id.trim(),
    title: draft.title.trim(),
    workshop: filled(draft.workshop),
    drawing: filled(draft.drawing),
    contact: filled(draft.contact),
    jointType: draft.jointType,
    units: filled(draft.units),
    codeSet: filled(draft.codeSet),
    restraint: filled(draft.restraint),
    restraintIntensity: number(draft.restraintIntensity, 'restraintIntensity'),
    stressConcentration: number(draft.stressConcentration, 'stressConcentration'),
    meanWeldStressMegapascals: quantity(draft.meanStress, 'strength', 'meanWeldStressMegapascals'),
    crackingZone: filled(draft.crackingZone),
    parts: draft.parts.map((part, index) => partOf(part, `parts.${index}`)),
    consumable: clean({
      designation: filled(draft.designation),
      hydrogen: hydrogenOf(draft.hydrogen),
      deposit: filled(draft.deposit),
      glycerineMillilitresPer100Grams: number(draft.glycerine, 'consumable.glycerineMillilitresPer100Grams'),
      weldMetal: draft.weldMetal[0] === undefined ? undefined : analysisOf(draft.weldMetal[0], 'consumable.weldMetal'),
    }),
    process: draft.process,
    heatInput: heatInputOf(draft.heatInput),
    weldShape: filled(draft.weldShape),
    weldSizeMillimetres: quantity(draft.weldSize, 'length', 'weldSizeMillimetres'),
    coolingSeconds: begunGroup(cooling.minimum, cooling.maximum)
      ? clean({
          minimum: number(cooling.minimum, 'coolingSeconds.minimum', true),
          maximum: number(cooling.maximum, 'coolingSeconds.maximum', true),
        })
      : undefined,
    heating: heatingOf(draft.heating),
    probes: draft.probes.map((probe, index) => probeOf(probe, `probes.${index}`)),
    procedure: procedure.bound
      ? clean({
          id: procedure.id.trim(),
          revision: procedure.revision.trim(),
          document: procedure.document,
          preheatMinimumCelsius: quantity(procedure.minimum, 'temperature', 'procedure.preheatMinimumCelsius'),
          interpassMaximumCelsius: quantity(procedure.interpass, 'temperature', 'procedure.interpassMaximumCelsius'),
          maintenanceMinimumCelsius: quantity(
            procedure.maintenance,
            'temperature',
            'procedure.maintenanceMinimumCelsius',
          ),
          highestCelsius: quantity(procedure.highest, 'temperature', 'procedure.highestCelsius'),
          evennessMaximumKelvin: quantity(procedure.evenness, 'difference', 'procedure.evennessMaximumKelvin'),
          soakHoldMinutes: number(procedure.hold, 'procedure.soakHoldMinutes'),
          throughThicknessHoldMinutes: number(procedure.throughHold, 'procedure.throughThicknessHoldMinutes'),
          zonePlacesRequired: number(procedure.places, 'procedure.zonePlacesRequired'),
          breaks: breaksOf(draft.breaks, number(draft.breaks.after, 'procedure.breaks.afterMinutes')),
          decisionRule: procedure.decisionRule,
          guardFactor:
            procedure.decisionRule === 'guarded' ? number(procedure.guardFactor, 'procedure.guardFactor') : undefined,
          calibration: filled(procedure.calibration),
          twinReadingHours: number(procedure.twinHours, 'procedure.twinReadingHours'),
          ambientCheck: filled(procedure.ambientCheck),
          heatInput: windowOf(draft.passes),
          heatingMaximumKelvinPerHour: quantity(
            after.heatingRate,
            'difference',
            'procedure.heatingMaximumKelvinPerHour',
          ),
          coolingMaximumKelvinPerHour: quantity(
            after.coolingRate,
            'difference',
            'procedure.coolingMaximumKelvinPerHour',
          ),
          ratesAboveCelsius: quantity(after.ratesAbove, 'temperature', 'procedure.ratesAboveCelsius'),
          coveredToCelsius: quantity(after.coveredTo, 'temperature', 'procedure.coveredToCelsius'),
          coolBeforeHeatTreatmentCelsius: quantity(
            after.coolBefore,
            'temperature',
            'procedure.coolBeforeHeatTreatmentCelsius',
          ),
          heatTreatmentWithinHours: number(after.within, 'procedure.heatTreatmentWithinHours'),
          ambientCelsius: quantity(after.ambient, 'temperature', 'procedure.ambientCelsius'),
          probeSpots: filled(after.spots),
        })
      : undefined,
    codeFloor: codeFloor.stated
      ? clean({
          preheatMinimumCelsius: quantity(codeFloor.celsius, 'temperature', 'codeFloor.preheatMinimumCelsius', true),
          source: codeFloor.source.trim(),
        })
      : undefined,
    bindingMethods: draft.bindingMethods.length === 0 ? undefined : draft.bindingMethods,
    chartReadings:
      draft.chartReadings.length === 0
        ? undefined
        : draft.chartReadings.map((reading, index) => chartReadingOf(reading, `chartReadings.${index}`)),
    postHeating: begunGroup(postHeating.temperature, postHeating.hours)
      ? clean({
          celsius: quantity(postHeating.temperature, 'temperature', 'postHeating.celsius', true),
          maximumCelsius: quantity(postHeating.maximum, 'temperature', 'postHeating.maximumCelsius'),
          hours: number(postHeating.hours, 'postHeating.hours', true),
          counted: filled(postHeating.counted),
        })
      : undefined,
    waitingEdition: filled(draft.waitingEdition),
  });

  function windowOf({ counted, least, most }: JointDraft['passes']): unknown {
    const path = 'procedure.heatInput';
    return begunGroup(counted, least, most)
      ? clean({
          counted: filled(counted),
          minimumKilojoulesPerMillimetre: quantity(least, 'heat input', `${path}.minimumKilojoulesPerMillimetre`),
          maximumKilojoulesPerMillimetre: quantity(most, 'heat input', `${path}.maximumKilojoulesPerMillimetre`),
        })
      : undefined;
  }

  function partOf(part: PartDraft, path: string): unknown {
    return clean({
      id: part.id.trim(),
      side: part.side,
      grade: filled(part.grade),
      thicknessMillimetres: quantity(part.thickness, 'length', `${path}.thicknessMillimetres`, true),
      form: filled(part.form),
      outsideDiameterMillimetres: quantity(part.diameter, 'length', `${path}.outsideDiameterMillimetres`),
      kind: filled(part.kind),
      yieldMegapascals: quantity(part.yield, 'strength', `${path}.yieldMegapascals`),
      tensileMegapascals: quantity(part.tensile, 'strength', `${path}.tensileMegapascals`),
      pNumber: filled(part.pNumber),
      awsCategory: filled(part.awsCategory),
      farSide: filled(part.farSide),
      conductsAs: filled(part.conductsAs),
      analyses: part.analyses.map((analysis, nth) => analysisOf(analysis, `${path}.analyses.${nth}`)),
    });
  }

  function hydrogenOf(hydrogen: JointDraft['hydrogen']): unknown {
    if (hydrogen.how === 'not stated') return 'not stated';
    if (hydrogen.how === 'class') return { class: hydrogen.class };
    const field = 'consumable.hydrogen.millilitresPer100Grams';
    return clean({ millilitresPer100Grams: number(hydrogen.millilitres, field, true) });
  }

  function heatInputOf(heat: JointDraft['heatInput']): unknown {
    const speed = () => quantity(heat.speed, 'speed', 'heatInput.millimetresPerSecond', true);
    switch (heat.how) {
      case 'not stated':
        return 'not stated';
      case 'energy':
        return clean({
          kilojoulesPerMillimetre: quantity(heat.kilojoules, 'heat input', 'heatInput.kilojoulesPerMillimetre', true),
        });
      case 'arc':
        return clean({
          volts: number(heat.volts, 'heatInput.volts', true),
          amperes: number(heat.amperes, 'heatInput.amperes', true),
          millimetresPerSecond: speed(),
        });
      case 'waveform energy':
        return clean({
          instantaneousJoules: number(heat.joules, 'heatInput.instantaneousJoules', true),
          beadMillimetres: quantity(heat.bead, 'length', 'heatInput.beadMillimetres', true),
        });
      case 'waveform power':
        return clean({
          instantaneousWatts: number(heat.watts, 'heatInput.instantaneousWatts', true),
          millimetresPerSecond: speed(),
        });
    }
  }

  function heatingOf({ means, face, whileWelding, halfWidth, air, setPoint }: JointDraft['heating']): unknown {
    return clean({
      means,
      face,
      whileWelding,
      halfWidthMillimetres: quantity(halfWidth, 'length', 'heating.halfWidthMillimetres'),
      airCelsius: quantity(air, 'temperature', 'heating.airCelsius'),
      setPointCelsius: quantity(setPoint, 'temperature', 'heating.setPointCelsius'),
    });
  }

  function analysisOf({ origin, certificate, heat, document, contents }: AnalysisDraft, path: string): unknown {
    const percent: Record<string, unknown> = {};
    for (const [element, { how, text }] of Object.entries(contents)) {
      if (how === 'not reported') percent[element] = 'not reported';
      else {
        const value = number(text, `${path}.percent.${element}`);
        if (value !== undefined) percent[element] = how === 'at most' ? { atMost: value } : value;
      }
    }
    return clean({ origin, certificate: filled(certificate), heat: filled(heat), document, percent });
  }

  function chartReadingOf(reading: ChartReadingDraft, path: string): unknown {
    return clean({
      method: reading.method.trim(),
      chart: reading.chart.trim(),
      scale: filled(reading.scale),
      part: filled(reading.part),
      combinedThicknessMillimetres: quantity(
        reading.combinedThickness,
        'length',
        `${path}.combinedThicknessMillimetres`,
      ),
      heatInputKilojoulesPerMillimetre: quantity(
        reading.heatInput,
        'heat input',
        `${path}.heatInputKilojoulesPerMillimetre`,
      ),
      carbonEquivalentPercent: number(reading.equivalent, `${path}.carbonEquivalentPercent`),
      preheatMinimumCelsius: quantity(reading.minimum, 'temperature', `${path}.preheatMinimumCelsius`, true),
      role: reading.role,
    });
  }

  function probeOf(probe: ProbeDraft, path: string): unknown {
    return clean({
      id: probe.id.trim(),
      board: probe.board.trim(),
      channel: number(probe.channel, `${path}.channel`, true),
      thermocouple: probe.thermocouple,
      use: probe.use,
      place: probe.placed
        ? clean({
            part: probe.part,
            side: probe.side,
            face: probe.face,
            distanceMillimetres: quantity(probe.distance, 'length', `${path}.place.distanceMillimetres`, true),
            clock: number(probe.clock, `${path}.place.clock`),
          })
        : undefined,
      wire: filled(probe.wire),
      extension: filled(probe.extension),
      attachedBy: filled(probe.attachedBy),
      attachmentErrorKelvin: quantity(probe.attachment, 'difference', `${path}.attachmentErrorKelvin`),
    });
  }
};

interface Reader {
  readonly problems: Record<string, string>;
  readonly typed: Record<string, readonly [string, string]>;
  number(text: string, field: string, needed?: boolean): number | undefined;
  quantity(text: string, kind: QuantityKind, field: string, needed?: boolean): number | undefined;
}

function createReader({ units }: JointDraft): Reader {
  const problems: Record<string, string> = {};
  const typed: Record<string, readonly [string, string]> = {};
  const taken = (read: NumberText, text: string, field: string, needed: boolean): number | undefined => {
    if (read.kind === 'number') return read.value;
    if (read.kind === 'not a number')
      problems[field] = `"${text.trim()}" is not a number. Write it like 12.5, without a thousands sign.`;
    else if (needed) problems[field] = 'Needed: a number.';
    return undefined;
  };
  return {
    problems,
    typed,
    number: (text, field, needed = false) => taken(readNumber(text), text, field, needed),
    quantity(text, kind, field, needed = false) {
      if (units === 'inch') typed[field] = [`${text.trim()} ${unitOf(kind, 'inch')}`, unitOf(kind, 'metric')];
      return taken(readQuantity(text, kind, units), text, field, needed);
    },
  };
}

const filled = (text: string): string | undefined => (text.trim() === '' ? undefined : text.trim());
const begunGroup = (...texts: readonly string[]): boolean => texts.some((text) => text.trim() !== '');

/** Without the fields that are absent: in a file, absent and undefined are not the same. */
const clean = (object: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
