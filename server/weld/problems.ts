/**
 * What is wrong with something that a person entered: for each field what was found and what is allowed, in
 * plain words, with the likely slip named. Made from zod's issues and from the schema itself.
 */
import type { z } from 'zod';
import { allowedWords, fieldsAt, type SchemaNode } from './allowed.ts';
import { jointSchema } from './joint.ts';
import { jsonSchemaOf } from './schema-of.ts';
import { nearest, numberSlip } from './slip.ts';

export interface Problem {
  /** Path of the field, as in "parts.0.thicknessMillimetres"; "(whole)" for the thing itself. */
  readonly field: string;
  readonly found: string;
  readonly allowed: string;
}

/** `input` is what was parsed; `schema` what it was parsed with. In the order of zod's issues, each field and reason once. */
export function problems(error: z.ZodError, input: unknown, schema: z.ZodType = jointSchema): readonly Problem[] {
  const root = jsonSchemaOf(schema);
  const all = error.issues.flatMap((issue) => problemsOf(issue as Issue, input, root));
  return all.filter(
    (one, index) => all.findIndex((other) => other.field === one.field && other.allowed === one.allowed) === index,
  );
}

const fieldName = (path: readonly PropertyKey[]): string =>
  path.length === 0 ? '(whole)' : path.map(String).join('.');

/** The parts of zod's issues that are used here. */
interface Issue {
  readonly code: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
  readonly errors?: readonly (readonly Issue[])[];
  readonly options?: readonly unknown[];
}

function problemsOf(issue: Issue, input: unknown, root: SchemaNode): Problem[] {
  if (issue.code === 'unrecognized_keys') return unknownFields(issue, input, root);
  if (issue.code === 'invalid_union') {
    const branch = meantBranch(issue.errors ?? [], at(input, issue.path));
    if (branch !== undefined) {
      return branch.flatMap((inner) => problemsOf({ ...inner, path: [...issue.path, ...inner.path] }, input, root));
    }
  }
  const found = at(input, issue.path);
  return [{ field: fieldName(issue.path), found: described(found), allowed: allowed(issue, found, root) }];
}

function allowed(issue: Issue, found: unknown, root: SchemaNode): string {
  const own = ownMessage(issue);
  if (issue.code === 'custom') return own ?? issue.message;
  if (issue.options !== undefined) return `one of ${issue.options.map((one) => JSON.stringify(one)).join(', ')}`;
  const general = allowedWords(root, issue.path) ?? issue.message;
  const words = own === undefined ? general : issue.code === 'invalid_format' ? own : `${general} (${own})`;
  const slip = numberSlip(found, general);
  return slip === undefined ? words : `${words}; ${slip}`;
}

function unknownFields(issue: Issue, input: unknown, root: SchemaNode): Problem[] {
  const known = fieldsAt(root, issue.path);
  return (issue.keys ?? []).map((key) => {
    const path = [...issue.path, key];
    const near = nearest(key, known);
    const fields = known.length === 0 ? 'no field here' : `one of the fields ${known.join(', ')}`;
    const value = described((at(input, issue.path) as Record<string, unknown> | undefined)?.[key]);
    return {
      field: fieldName(path),
      found: `a field that is not known, holding ${value}`,
      allowed: near === undefined ? fields : `${fields}; perhaps "${near}" is meant`,
    };
  });
}

/**
 * The branch of a choice that the person most likely meant: one that fits the kind of value, then the one with
 * fewest unknown fields, then with fewest issues. None where no branch fits the kind of value at all.
 */
function meantBranch(branches: readonly (readonly Issue[])[], found: unknown): readonly Issue[] | undefined {
  const fitting = branches.filter((issues) => !issues.some((issue) => issue.path.length === 0 && isOfWrongKind(issue)));
  if (fitting.length === 0 || isEmptyObject(found)) return undefined;
  const unknownCount = (issues: readonly Issue[]) => issues.flatMap((issue) => issue.keys ?? []).length;
  const order = (a: readonly Issue[], b: readonly Issue[]) => unknownCount(a) - unknownCount(b) || a.length - b.length;
  return [...fitting].sort(order)[0];
}

const isOfWrongKind = (issue: Issue): boolean => issue.code === 'invalid_type' || issue.code === 'invalid_value';
const isEmptyObject = (found: unknown): boolean =>
  typeof found === 'object' && found !== null && Object.keys(found).length === 0;

/** A message written in our schemas; zod's own ones start with these words and say less than allowedWords does. */
const ownMessage = (issue: Issue): string | undefined =>
  /^(Invalid|Too (small|big)|Unrecognized)\b/.test(issue.message) ? undefined : issue.message;

function at(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, key) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    return (value as Record<PropertyKey, unknown>)[key];
  }, input);
}

function described(found: unknown): string {
  if (found === undefined) return 'nothing';
  if (found === null) return 'null';
  if (typeof found === 'string') return found === '' ? 'empty text' : `the text ${JSON.stringify(shortened(found))}`;
  if (typeof found === 'number') return `the number ${found}`;
  if (Array.isArray(found)) return found.length === 1 ? 'a list of 1 entry' : `a list of ${found.length} entries`;
  if (typeof found === 'object') return shortened(`an object with ${Object.keys(found).join(', ') || 'no fields'}`);
  return shortened(String(found));
}

const shortened = (text: string): string => (text.length > 80 ? `${text.slice(0, 77)}...` : text);
