/** The check of the probes at ambient, before heating: what all of them read at rest, and what moved as each tip was touched. */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';
import { nameSchema } from './text.ts';

const celsius = z.number().min(-273).max(2500);
const instant = z.number().int().positive();

export const touchSchema = z.strictObject({
  probe: nameSchema,
  /** By hand; cooled: with a wet cloth. */
  way: z.enum(['warmed', 'cooled']),
  from: instant,
  until: instant,
  /** Of the probe and of every other one that changed: when the touch began, and furthest from there while it lasted. */
  readings: z
    .array(z.strictObject({ probe: nameSchema, fromCelsius: celsius, toCelsius: celsius }))
    .max(limits.probesMaximum),
});
export type AmbientTouch = z.infer<typeof touchSchema>;

export const ambientCheckShape = {
  /** As the person read it, not from a probe of this joint. */
  airCelsius: z.number().min(-60).max(70),
  /** What it was read with. */
  airReadWith: nameSchema.optional(),
  /** Without a temperature: no reading that could be used. */
  rest: z
    .array(z.strictObject({ probe: nameSchema, celsius: celsius.optional() }))
    .min(1)
    .max(limits.probesMaximum),
  touches: z.array(touchSchema).max(limits.touchesMaximum),
};
export const ambientCheckSchema = z.strictObject(ambientCheckShape);
export type AmbientCheck = z.infer<typeof ambientCheckSchema>;
