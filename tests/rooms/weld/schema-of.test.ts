/** The published JSON Schema is made from the schema that checks, closed to unknown fields, and says its units. */
import { expect, test } from 'vitest';
import { allowedWords, fieldsAt } from '../../../server/weld/allowed.ts';
import { jointJsonSchema } from '../../../server/weld/schema-of.ts';

test('draft 2020-12, with every object closed', () => {
  const schema = jointJsonSchema();
  expect((schema as { $schema?: string }).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  const open: string[] = [];
  const walk = (node: unknown, path: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties, additionalProperties } = node as Record<string, unknown>;
    if (properties !== undefined && additionalProperties !== false) open.push(path);
    for (const [key, value] of Object.entries(node)) walk(value, `${path}/${key}`);
  };
  walk(schema, '');
  expect(open).toEqual([]);
});

test('it names the fields, their bounds and their units', () => {
  const schema = jointJsonSchema();
  expect(fieldsAt(schema, ['parts', 0]).slice(0, 5)).toEqual([
    'id',
    'side',
    'grade',
    'thicknessMillimetres',
    'analyses',
  ]);
  expect(fieldsAt(schema, ['parts', 0, 'analyses', 0, 'percent'])).toContain('Mn');
  expect(allowedWords(schema, ['probes', 3, 'channel'])).toBe('a whole number from 1 to 16');
  expect(allowedWords(schema, ['no such field'])).toBeUndefined();
  expect(JSON.stringify(schema)).toContain('Mass fractions in percent');
});
