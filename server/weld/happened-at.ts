/** The time that an act carries where it was not done just now. */
import { z } from 'zod';

/** When it happened, if not now: integer milliseconds since 1970 UTC. */
export const happenedAt = z.number().int().positive().optional();
