/** A minimum preheat that a person read off a published chart, since no formula gives it. */
import { z } from 'zod';
import { nameSchema } from './text.ts';

/** Which chart, with what, and what it said. */
export const chartReadingSchema = z
  .strictObject({
    method: nameSchema.meta({ description: 'For instance "EN 1011-2 method A".' }),
    chart: nameSchema.meta({ description: 'Figure, page or curve that was read, with its edition.' }),
    scale: nameSchema.meta({ description: 'Hydrogen scale or curve within the chart.' }).optional(),
    part: nameSchema.meta({ description: 'Part it was read for; absent: for the whole joint.' }).optional(),
    combinedThicknessMillimetres: z.number().positive().max(6000).optional(),
    heatInputKilojoulesPerMillimetre: z.number().positive().max(50).optional(),
    carbonEquivalentPercent: z.number().positive().max(5).optional(),
    preheatMinimumCelsius: z.number().min(-50).max(900),
    role: z.enum(['may govern', 'comparison only']),
  })
  .meta({ id: 'ChartReading', description: 'A minimum preheat read off a published chart by a person.' });
export type ChartReading = z.infer<typeof chartReadingSchema>;
