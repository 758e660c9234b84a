/** What a field may hold, in plain words, read from the JSON Schema that is made from the zod schema. */

export interface SchemaNode {
  readonly $ref?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
  readonly type?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly propertyNames?: SchemaNode;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly items?: SchemaNode;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly pattern?: string;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
}

type Path = readonly PropertyKey[];

/** The words for the field at the path, or undefined where the schema knows no such field. */
export function allowedWords(root: SchemaNode, path: Path): string | undefined {
  const nodes = nodesAt(root, path);
  return nodes.length === 0 ? undefined : joined(nodes.map((node) => words(root, node)));
}

/** Names of the fields that may stand in the object at the path. */
export function fieldsAt(root: SchemaNode, path: Path): readonly string[] {
  const names = nodesAt(root, path)
    .flatMap((node) => options(root, node))
    .flatMap((node) => [...Object.keys(node.properties ?? {}), ...((node.propertyNames?.enum ?? []) as string[])]);
  return [...new Set(names)];
}

function nodesAt(root: SchemaNode, path: Path): SchemaNode[] {
  return path.reduce<SchemaNode[]>(
    (nodes, key) => nodes.flatMap((node) => options(root, node)).flatMap((node) => child(node, key)),
    [root],
  );
}

function child(node: SchemaNode, key: PropertyKey): SchemaNode[] {
  if (typeof key === 'number') return node.items === undefined ? [] : [node.items];
  const named = node.properties?.[String(key)];
  if (named !== undefined) return [named];
  return typeof node.additionalProperties === 'object' ? [node.additionalProperties] : [];
}

/** The node itself with its reference followed, or the branches of a choice. */
function options(root: SchemaNode, node: SchemaNode): SchemaNode[] {
  if (node.$ref !== undefined) {
    const name = node.$ref.split('/').at(-1)!;
    const target = node.$ref === '#' ? root : root.$defs?.[name];
    return target === undefined ? [] : options(root, target);
  }
  const branches = node.anyOf ?? node.oneOf;
  return branches === undefined ? [node] : branches.flatMap((branch) => options(root, branch));
}

function words(root: SchemaNode, node: SchemaNode): string {
  const branches = options(root, node);
  const fixed = branches.flatMap((one) => one.enum ?? (one.const === undefined ? [] : [one.const]));
  const open = branches.filter((one) => one.enum === undefined && one.const === undefined).map(openWords);
  const listed = fixed.map((value) => JSON.stringify(value)).join(', ');
  return joined([...open, ...(listed === '' ? [] : [fixed.length > 1 ? `one of ${listed}` : listed])]);
}

function openWords(node: SchemaNode): string {
  if (node.type === 'number') return `a number${span(node)}`;
  if (node.type === 'integer') return `a whole number${span(node)}`;
  if (node.type === 'string') return `text${length(node.minLength, node.maxLength, 'character')}`;
  if (node.type === 'array') return `a list${length(node.minItems, node.maxItems, 'entry')}`;
  if (node.type !== 'object') return 'a value of this format';
  const required = node.required ?? [];
  return required.length === 0 ? 'an object in braces' : `an object in braces with ${required.join(', ')}`;
}

function span({ minimum, exclusiveMinimum, maximum }: SchemaNode): string {
  // Integers without bounds are given the ends of exact arithmetic; those say nothing to a person.
  const high = maximum === undefined || maximum >= Number.MAX_SAFE_INTEGER ? undefined : maximum;
  if (exclusiveMinimum !== undefined)
    return ` above ${exclusiveMinimum}${high === undefined ? '' : `, at most ${high}`}`;
  if (minimum === undefined || minimum <= Number.MIN_SAFE_INTEGER)
    return high === undefined ? '' : ` of at most ${high}`;
  return high === undefined ? ` of at least ${minimum}` : ` from ${minimum} to ${high}`;
}

function length(minimum: number | undefined, maximum: number | undefined, one: string): string {
  const many = one === 'entry' ? 'entries' : `${one}s`;
  if (maximum === undefined)
    return minimum === undefined ? '' : ` of at least ${minimum} ${minimum === 1 ? one : many}`;
  if (minimum === maximum) return ` of ${maximum} ${maximum === 1 ? one : many}`;
  return minimum === undefined || minimum === 0
    ? ` of at most ${maximum} ${many}`
    : ` of ${minimum} to ${maximum} ${many}`;
}

const joined = (parts: readonly string[]): string => [...new Set(parts)].join(', or ');
