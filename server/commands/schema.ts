/** `schema joint`, `schema procedure`: the published JSON Schema of such a file, made from the schema that checks it. */
import { procedureRevisionSchema } from '../weld/procedure-revision.ts';
import { jointJsonSchema, jsonSchemaOf } from '../weld/schema-of.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';

const schemas: Readonly<Record<string, () => unknown>> = {
  joint: jointJsonSchema,
  procedure: () => jsonSchemaOf(procedureRevisionSchema),
};

const help = `schema joint | procedure

Prints the JSON Schema (draft 2020-12) of a joint file, or of a procedure file. Give it to an editor, so that it checks while you type.

  --help   this page

Exit status: 0 printed, 3 bad input.`;

export const schema: Command = {
  name: 'schema',
  summary: 'the JSON Schema of a joint file or a procedure file',
  help,
  async run(args, terminal) {
    // --json is taken and changes nothing: the answer is JSON in any case.
    const asked = readArguments(schema, { json: { type: 'boolean' } }, args, terminal);
    if (typeof asked === 'number') return asked;
    const [name = '', ...rest] = asked.positionals;
    const make = Object.hasOwn(schemas, name) ? schemas[name] : undefined;
    if (make === undefined || rest.length > 0) {
      return refuse(schema, `name one of: ${Object.keys(schemas).join(', ')}`, terminal);
    }
    terminal.out(JSON.stringify(make(), null, 2));
    return exitStatus.done;
  },
};
