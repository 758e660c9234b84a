/**
 * What comes after the last pass: post-heating as the procedure states it, with what is published beside it; how
 * much hydrogen that leaves, as a range; and how long to wait before the last test. It never shortens a wait, and
 * never says that a part is free of hydrogen.
 */
import { unitsOf } from '../measure/units.ts';
import type { Joint } from '../weld/joint.ts';
import type { Citation } from './citation.ts';
import {
  diffusivityBounds,
  highestDiffusionCelsius,
  type ResidualHydrogen,
  residualHydrogen,
} from './hydrogen-diffusion.ts';
import { degrees, plain } from './number.ts';
import { type PostHeatingRange, postHeatingRanges } from './post-heating.ts';
import { type WaitingEdition, waitingRules } from './waiting-time.ts';

export interface AfterWelding {
  readonly thickestMillimetres: number;
  /** As the procedure states it. Absent: it asks for none. */
  readonly postHeating?: {
    readonly celsius: number;
    readonly hours: number;
    /** Share of hydrogen left in the thickest part; absent where no diffusivity holds. */
    readonly residual?: ResidualHydrogen;
    readonly notes: readonly string[];
  };
  readonly published: readonly PostHeatingRange[];
  readonly waiting: Waiting;
  /** What the shares of hydrogen rest on. */
  readonly residualSource: string;
}

export type Waiting =
  | { readonly kind: 'not chosen'; readonly choices: readonly WaitingChoice[] }
  | (WaitingHead & { readonly kind: 'asks'; readonly missing: readonly string[] })
  | (WaitingHead & { readonly kind: 'silent'; readonly because: string })
  | (WaitingHead & {
      readonly kind: 'waits';
      /** From the end of welding. Zero: none beyond the cooling itself. */
      readonly hours: number;
      readonly because: string;
      readonly notes: readonly string[];
      /** Share of hydrogen left after this wait at 20 °C. Absent for no hours. */
      readonly residual?: ResidualHydrogen;
    });

export interface WaitingChoice {
  readonly edition: WaitingEdition;
  readonly words: string;
}

interface WaitingHead extends Citation {
  readonly edition: WaitingEdition;
  readonly sizeMillimetres: number;
  /** "as stated", or why another length stands for it. */
  readonly sizeFrom: string;
}

const roomCelsius = 20;

export function afterWelding(joint: Joint): AfterWelding {
  const thickest = Math.max(...joint.parts.map((part) => part.thicknessMillimetres));
  const { postHeating } = joint;
  return {
    thickestMillimetres: thickest,
    ...(postHeating === undefined ? {} : { postHeating: heated(joint, thickest, postHeating) }),
    published: postHeatingRanges(thickest),
    waiting: waiting(joint, thickest),
    residualSource: `plate with the same content everywhere at first and both faces free (textbook, from memory); diffusivities: ${diffusivityBounds
      .map(({ source, status }) => `${source} (${status})`)
      .join('; ')}`,
  };
}

/** Hours to wait before the last test, and nothing besides; undefined where no rule is chosen, or it gives none. */
export function waitingHours(joint: Joint): number | undefined {
  const rule = waitingRules.find(({ edition }) => edition === joint.waitingEdition);
  const thickest = Math.max(...joint.parts.map((part) => part.thicknessMillimetres));
  const outcome = rule?.work({
    joint,
    sizeMillimetres: joint.weldSizeMillimetres ?? thickest,
    thickestMillimetres: thickest,
  });
  return outcome?.kind === 'waits' ? outcome.hours : undefined;
}

function heated(
  joint: Joint,
  thickest: number,
  { celsius, hours }: NonNullable<Joint['postHeating']>,
): NonNullable<AfterWelding['postHeating']> {
  const units = unitsOf(joint);
  const foreign = notFerritic(joint);
  if (foreign !== undefined) return { celsius, hours, notes: [foreign] };
  const residual = residualHydrogen(thickest, celsius, hours);
  if (residual === undefined) {
    const note = `${degrees(celsius, units)} is above ${degrees(highestDiffusionCelsius, units)}: that is heat treatment rather than post-heating, and no share of hydrogen is given for it`;
    return { celsius, hours, notes: [note] };
  }
  const notes = [
    ...residual.flags,
    'a bead, or the layer beneath a face, gives off its hydrogen sooner; a plate charged all through is the slow case',
  ];
  return { celsius, hours, residual, notes };
}

function waiting(joint: Joint, thickest: number): Waiting {
  const rule = waitingRules.find(({ edition }) => edition === joint.waitingEdition);
  if (rule === undefined) {
    return { kind: 'not chosen', choices: waitingRules.map(({ edition, words }) => ({ edition, words })) };
  }
  const stated = joint.weldSizeMillimetres;
  const size = stated ?? thickest;
  const { work, words: _, ...cited } = rule;
  const head: WaitingHead = {
    ...cited,
    sizeMillimetres: size,
    sizeFrom:
      stated === undefined
        ? `no weld size is stated: the thickest part, ${plain(thickest)} mm, as if fully penetrated`
        : 'as stated',
  };
  const outcome = work({ joint, sizeMillimetres: size, thickestMillimetres: thickest });
  if (outcome.kind !== 'waits' || outcome.hours === 0) return { ...head, ...outcome };
  if (notFerritic(joint) !== undefined) return { ...head, ...outcome };
  const residual = residualHydrogen(thickest, roomCelsius, outcome.hours);
  return { ...head, ...outcome, ...(residual === undefined ? {} : { residual }) };
}

/** Why hydrogen moves otherwise here than the diffusivities say, in words. */
function notFerritic({ parts, consumable }: Joint): string | undefined {
  const kinds = ['austenitic', 'duplex', 'nickel alloy'];
  const part = parts.find(({ kind }) => kind !== undefined && kinds.includes(kind));
  const deposit = consumable.deposit ?? 'ferritic';
  if (part === undefined && deposit === 'ferritic') return undefined;
  const what = part === undefined ? `the weld metal is ${deposit}` : `part ${part.id} is ${part.kind}`;
  return `${what}: the diffusivities hold for ferritic steel, and no share of hydrogen is given`;
}
