/**
 * Documents (a photograph, a certificate, a procedure) are kept as bytes under their SHA-256. A joint file or an
 * entry holds the hash only, so that the chain proves which document was meant.
 */
import { z } from 'zod';
import { limits } from '../measure/limits.ts';

export const sha256Schema = z
  .string()
  .regex(/^[0-9a-f]{64}$/, 'a SHA-256 as 64 digits of 0-9 and a-f, small letters')
  .meta({ id: 'Sha256', description: 'SHA-256 of a kept document, 64 hexadecimal digits.' });

export const mediaTypeSchema = z
  .string()
  .max(limits.nameMaximum)
  .regex(/^[a-z]+\/[a-z0-9][a-z0-9.+-]*$/, 'a media type, as in image/jpeg or application/pdf');

export const documentBytesSchema = z.number().int().positive().max(limits.documentMaximum);
