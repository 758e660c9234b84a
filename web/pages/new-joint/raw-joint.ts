/**
 * The object as a joint file would hold it, made of what was typed. Numbers that cannot be read are left out, and
 * told at their field; a group of which a part is filled asks for the rest.
 */

import { asBound } from '../../../server/weld/procedure-revision.ts';
import type { AnalysisDraft, ChartReadingDraft, JointDraft, PartDraft, ProbeDraft } from './draft.ts';
import { besideOf, procedureOf } from './raw-procedure.ts';
import { begunGroup, clean, createReader, filled, type Reader } from './raw-reader.ts';
import { repairOf } from './repair-draft.ts';

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

/** Only what a revision of a procedure is made of. */
export const rawRevision = (draft: JointDraft): RawJoint => {
  const reader = createReader(draft);
  const revision = {
    format: 'preheat procedure 1',
    procedure: procedureOf({ ...draft, procedure: { ...draft.procedure, bound: true } }, reader),
    ...besideOf(draft, reader),
  };
  return { joint: clean(revision), problems: reader.problems, typed: reader.typed };
};

const jointOf = (draft: JointDraft, reader: Reader): unknown => {
  const { number, quantity } = reader;
  const { codeFloor, recorded } = draft;
  return clean({
    ...draft.carried,
    format: 'preheat joint 1',
    id: draft.id.trim(),
    title: draft.title.trim(),
    workshop: filled(draft.workshop),
    drawing: filled(draft.drawing),
    contact: filled(draft.contact),
    arcSignal: begunGroup(draft.arc.board, draft.arc.input)
      ? clean({ board: draft.arc.board.trim(), input: number(draft.arc.input, 'arcSignal.input', true) })
      : undefined,
    jointType: draft.jointType,
    repairOf: draft.repair === undefined ? undefined : repairOf(draft.repair, reader),
    units: filled(draft.units),
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
    heatInput: given(heatInputOf(draft.heatInput)),
    weldShape: filled(draft.weldShape),
    weldSizeMillimetres: quantity(draft.weldSize, 'length', 'weldSizeMillimetres'),
    ...besideOf(draft, reader),
    heating: heatingOf(draft.heating),
    probes: draft.probes.map((probe, index) => probeOf(probe, `probes.${index}`)),
    procedure: procedureOf(draft, reader),
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
    // As recorded, to the last digit, whatever a change of units has made of the text.
    ...(recorded === undefined ? {} : asBound(recorded.revision, recorded.sha256)),
  });

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

/** Nothing of it entered yet: it is missing, and not there and empty. */
const given = (stated: unknown): unknown =>
  typeof stated === 'object' && stated !== null && Object.keys(stated).length === 0 ? undefined : stated;
