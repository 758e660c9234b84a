/** Names and free text as persons type them: bounded, trimmed, and a name on one line without control characters. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';

const oneLine = /^\P{Cc}*$/u;

/** A name, an identifier, a label. Never empty. */
export const nameSchema = z
  .string()
  .trim()
  .min(1)
  .max(limits.nameMaximum)
  .regex(oneLine, 'one line, without control characters');

/** As a name, but may be empty. */
export const labelSchema = z
  .string()
  .trim()
  .max(limits.nameMaximum)
  .regex(oneLine, 'one line, without control characters');

/** Words of a person, several lines if need be. Never empty. */
export const textSchema = z.string().trim().min(1, 'this needs words').max(limits.textMaximum);
