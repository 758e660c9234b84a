/**
 * From what was typed to a joint, or to what is still wrong with it, field by field. A number that is not
 * plainly one number is told as such; an empty one that is needed is asked for.
 */
import { readNumber } from '../../../server/measure/number-text.ts';
import { type Joint, jointSchema } from '../../../server/weld/joint.ts';
import { type Probe, probeSchema } from '../../../server/weld/probe.ts';
import { problems as problemsIn } from '../../../server/weld/problems.ts';
import { begun } from '../../../server/wording/list.ts';
import type { AnalysisDraft, JointDraft, ProbeDraft } from './draft.ts';

/** By path of the field, as in "parts.0.thicknessMillimetres". */
export type Problems = Readonly<Record<string, string>>;
export type Candidate =
  | { readonly ok: true; readonly joint: Joint }
  | { readonly ok: false; readonly problems: Problems };

export const candidateOf = (draft: JointDraft): Candidate => {
  const problems: Record<string, string> = {};
  return judged(raw(draft, problems), problems);
};

/** Only what the requirement hangs on: names and probes may still be missing while one types. */
export const metalCandidateOf = (draft: JointDraft): Candidate => {
  const problems: Record<string, string> = {};
  const named = {
    ...draft,
    id: 'draft',
    title: 'draft',
    probes: [],
    procedure: { ...draft.procedure, id: draft.procedure.id || 'draft', revision: draft.procedure.revision || 'draft' },
  };
  return judged(raw(named, problems), problems);
};

/** What can be drawn already: the parts, and those probes that are whole. Undefined while the parts are not. */
export const previewOf = (draft: JointDraft): Joint | undefined => {
  const metal = metalCandidateOf(draft);
  if (!metal.ok) return undefined;
  const whole = raw(draft, {}) as { readonly probes: readonly unknown[] };
  const parts = new Set(metal.joint.parts.map((part) => part.id));
  const probes = whole.probes.flatMap((probe): Probe[] => {
    const parsed = probeSchema.safeParse(probe);
    return parsed.success && (parsed.data.place === undefined || parts.has(parsed.data.place.part))
      ? [parsed.data]
      : [];
  });
  return { ...metal.joint, probes };
};

const judged = (joint: unknown, typed: Record<string, string>): Candidate => {
  const parsed = jointSchema.safeParse(joint);
  const problems: Record<string, string> = { ...typed };
  if (!parsed.success) {
    for (const { field, found, allowed } of problemsIn(parsed.error, joint)) {
      problems[field] ??= sentence(found, allowed);
    }
  }
  return Object.keys(problems).length === 0 && parsed.success
    ? { ok: true, joint: parsed.data }
    : { ok: false, problems };
};

export const sentence = (found: string, allowed: string): string =>
  found === 'nothing' || found === 'empty text' || found === ''
    ? `Needed: ${allowed}.`
    : `${begun(found)} is not allowed here: ${allowed}.`;

/** The object as a joint file would hold it. Numbers that cannot be read are left out, and told. */
function raw(draft: JointDraft, problems: Record<string, string>): unknown {
  const number = (text: string, field: string, needed = false): number | undefined => {
    const read = readNumber(text);
    if (read.kind === 'number') return read.value;
    if (read.kind === 'not a number')
      problems[field] = `"${text.trim()}" is not a number. Write it like 12.5, without a thousands sign.`;
    else if (needed) problems[field] = 'Needed: a number.';
    return undefined;
  };
  const filled = (text: string): string | undefined => (text.trim() === '' ? undefined : text.trim());
  const { procedure, hydrogen, heatInput, codeFloor } = draft;
  return clean({
    format: 'preheat joint 1',
    id: draft.id.trim(),
    title: draft.title.trim(),
    workshop: filled(draft.workshop),
    drawing: filled(draft.drawing),
    jointType: draft.jointType,
    parts: draft.parts.map((part, index) =>
      clean({
        id: part.id.trim(),
        side: part.side,
        grade: filled(part.grade),
        thicknessMillimetres: number(part.thickness, `parts.${index}.thicknessMillimetres`, true),
        analyses: part.analyses.map((analysis, nth) => analysisOf(analysis, `parts.${index}.analyses.${nth}`)),
      }),
    ),
    consumable: clean({
      designation: filled(draft.designation),
      hydrogen:
        hydrogen.how === 'not stated'
          ? 'not stated'
          : hydrogen.how === 'class'
            ? { class: hydrogen.class }
            : clean({
                millilitresPer100Grams: number(
                  hydrogen.millilitres,
                  'consumable.hydrogen.millilitresPer100Grams',
                  true,
                ),
              }),
      weldMetal: draft.weldMetal[0] === undefined ? undefined : analysisOf(draft.weldMetal[0], 'consumable.weldMetal'),
    }),
    process: draft.process,
    heatInput:
      heatInput.how === 'not stated'
        ? 'not stated'
        : heatInput.how === 'energy'
          ? clean({ kilojoulesPerMillimetre: number(heatInput.kilojoules, 'heatInput.kilojoulesPerMillimetre', true) })
          : clean({
              volts: number(heatInput.volts, 'heatInput.volts', true),
              amperes: number(heatInput.amperes, 'heatInput.amperes', true),
              millimetresPerSecond: number(heatInput.speed, 'heatInput.millimetresPerSecond', true),
            }),
    heating: draft.heating,
    probes: draft.probes.map((probe, index) => probeOf(probe, `probes.${index}`)),
    procedure: procedure.bound
      ? clean({
          id: procedure.id.trim(),
          revision: procedure.revision.trim(),
          preheatMinimumCelsius: number(procedure.minimum, 'procedure.preheatMinimumCelsius'),
          interpassMaximumCelsius: number(procedure.interpass, 'procedure.interpassMaximumCelsius'),
          maintenanceMinimumCelsius: number(procedure.maintenance, 'procedure.maintenanceMinimumCelsius'),
          highestCelsius: number(procedure.highest, 'procedure.highestCelsius'),
          evennessMaximumKelvin: number(procedure.evenness, 'procedure.evennessMaximumKelvin'),
          soakHoldMinutes: number(procedure.hold, 'procedure.soakHoldMinutes'),
          zonePlacesRequired: number(procedure.places, 'procedure.zonePlacesRequired'),
          decisionRule: 'simple acceptance',
        })
      : undefined,
    codeFloor: codeFloor.stated
      ? clean({
          preheatMinimumCelsius: number(codeFloor.celsius, 'codeFloor.preheatMinimumCelsius', true),
          source: codeFloor.source.trim(),
        })
      : undefined,
    bindingMethods: draft.bindingMethods.length === 0 ? undefined : draft.bindingMethods,
  });

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
            distanceMillimetres: number(probe.distance, `${path}.place.distanceMillimetres`, true),
            clock: number(probe.clock, `${path}.place.clock`),
          })
        : undefined,
    });
  }
}

/** Without the fields that are absent: in a file, absent and undefined are not the same. */
const clean = (object: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
