/** `schema joint`, `schema procedure`, `schema connection`: the published JSON Schema of such a file, made from the schema that checks it. */
import { connectionSchema } from '../weld/connection/connection.ts';
import { procedureRevisionSchema } from '../weld/procedure-revision.ts';
import { jointJsonSchema, jsonSchemaOf } from '../weld/schema-of.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';

const schemas: Readonly<Record<string, () => unknown>> = {
  joint: jointJsonSchema,
  connection: () => jsonSchemaOf(connectionSchema),
  procedure: () => jsonSchemaOf(procedureRevisionSchema),
};

const help = `schema joint | procedure | connection

Prints the JSON Schema (draft 2020-12) of a joint, procedure or connection file. Give it to an editor, so that it checks while you type.

  --help   this page

Exit status: 0 printed, 3 bad input.`;

export const schema: Command = {
  name: 'schema',
  summary: 'the JSON Schema of a joint, procedure or connection file',
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
