/** The mark by which a connection file is known. */
import { z } from 'zod';

export const connectionFormat = z.literal('preheat connection 1');
