/** What a procedure states, as a file would hold it, made of what was typed: its own fields, and those that the joint holds beside it. */
import { breaksOf } from './break-draft.ts';
import { checksOf } from './check-draft.ts';
import type { JointDraft, QualificationDraft } from './draft.ts';
import { passesOf } from './passes-draft.ts';
import { begunGroup, clean, filled, type Reader } from './raw-reader.ts';

export function procedureOf(draft: JointDraft, reader: Reader): unknown {
  const { number, quantity } = reader;
  const { procedure, afterWelding: after } = draft;
  if (!procedure.bound) return undefined;
  return clean({
    id: procedure.id.trim(),
    revision: procedure.revision.trim(),
    title: filled(procedure.title),
    codeEdition: filled(procedure.codeEdition),
    document: procedure.document,
    preheatMinimumCelsius: quantity(procedure.minimum, 'temperature', 'procedure.preheatMinimumCelsius'),
    interpassMaximumCelsius: quantity(procedure.interpass, 'temperature', 'procedure.interpassMaximumCelsius'),
    maintenanceMinimumCelsius: quantity(procedure.maintenance, 'temperature', 'procedure.maintenanceMinimumCelsius'),
    highestCelsius: quantity(procedure.highest, 'temperature', 'procedure.highestCelsius'),
    evennessMaximumKelvin: quantity(procedure.evenness, 'difference', 'procedure.evennessMaximumKelvin'),
    soakHoldMinutes: number(procedure.hold, 'procedure.soakHoldMinutes'),
    throughThicknessHoldMinutes: number(procedure.throughHold, 'procedure.throughThicknessHoldMinutes'),
    zonePlacesRequired: number(procedure.places, 'procedure.zonePlacesRequired'),
    ...checksOf(draft.checking),
    breaks: breaksOf(draft.breaks, number(draft.breaks.after, 'procedure.breaks.afterMinutes')),
    decisionRule: procedure.decisionRule,
    guardFactor:
      procedure.decisionRule === 'guarded' ? number(procedure.guardFactor, 'procedure.guardFactor') : undefined,
    calibration: filled(procedure.calibration),
    twinReadingHours: number(procedure.twinHours, 'procedure.twinReadingHours'),
    ambientCheck: filled(procedure.ambientCheck),
    ...passesOf(draft.passes, reader),
    heatingMaximumKelvinPerHour: quantity(after.heatingRate, 'difference', 'procedure.heatingMaximumKelvinPerHour'),
    coolingMaximumKelvinPerHour: quantity(after.coolingRate, 'difference', 'procedure.coolingMaximumKelvinPerHour'),
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
    qualification: draft.qualification.stated ? qualificationOf(draft.qualification, reader) : undefined,
  });
}

/** Under the names that the joint has them by. */
export function besideOf(draft: JointDraft, { number, quantity }: Reader): Record<string, unknown> {
  const { cooling, postHeating } = draft;
  return {
    codeSet: filled(draft.codeSet),
    coolingSeconds: begunGroup(cooling.minimum, cooling.maximum)
      ? clean({
          minimum: number(cooling.minimum, 'coolingSeconds.minimum', true),
          maximum: number(cooling.maximum, 'coolingSeconds.maximum', true),
        })
      : undefined,
    postHeating: begunGroup(postHeating.temperature, postHeating.hours)
      ? clean({
          celsius: quantity(postHeating.temperature, 'temperature', 'postHeating.celsius', true),
          maximumCelsius: quantity(postHeating.maximum, 'temperature', 'postHeating.maximumCelsius'),
          hours: number(postHeating.hours, 'postHeating.hours', true),
          counted: filled(postHeating.counted),
        })
      : undefined,
    waitingEdition: filled(draft.waitingEdition),
  };
}

function qualificationOf(typed: QualificationDraft, { number, quantity }: Reader): unknown {
  const at = (field: string): string => `procedure.qualification.${field}`;
  return clean({
    record: typed.record.trim(),
    standard: typed.standard,
    edition: filled(typed.edition),
    preheatCelsius: quantity(typed.preheat, 'temperature', at('preheatCelsius')),
    interpassCelsius: quantity(typed.interpass, 'temperature', at('interpassCelsius')),
    maintenanceCelsius: quantity(typed.maintenance, 'temperature', at('maintenanceCelsius')),
    postHeating: postHeating(),
    heatInput:
      typed.counted === ''
        ? undefined
        : clean({
            counted: typed.counted,
            minimumKilojoulesPerMillimetre: quantity(
              typed.leastHeatInput,
              'heat input',
              at('heatInput.minimumKilojoulesPerMillimetre'),
            ),
            maximumKilojoulesPerMillimetre: quantity(
              typed.mostHeatInput,
              'heat input',
              at('heatInput.maximumKilojoulesPerMillimetre'),
            ),
          }),
    impactTests: typed.standard === 'ASME IX' ? filled(typed.impactTests) : undefined,
    interpassRise: typed.standard === 'ISO 15614-1:2017' ? filled(typed.interpassRise) : undefined,
  });

  function postHeating(): unknown {
    if (typed.postHeating === 'not known') return undefined;
    if (typed.postHeating === 'none') return 'none';
    return clean({
      celsius: quantity(typed.postHeatingAt, 'temperature', at('postHeating.celsius'), true),
      hours: number(typed.postHeatingHours, at('postHeating.hours'), true),
    });
  }
}
