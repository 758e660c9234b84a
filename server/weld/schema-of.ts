/** JSON Schemas (draft 2020-12) made from the zod schemas, so that the published one cannot differ from the one that checks. */
import { z } from 'zod';
import type { SchemaNode } from './allowed.ts';
import { jointSchema } from './joint.ts';

/** The published schema of a joint file. */
export const jointJsonSchema = (): SchemaNode => jsonSchemaOf(jointSchema);

const made = new WeakMap<z.ZodType, SchemaNode>();

export function jsonSchemaOf(schema: z.ZodType): SchemaNode {
  const kept = made.get(schema);
  if (kept !== undefined) return kept;
  const node = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' }) as SchemaNode;
  made.set(schema, node);
  return node;
}
