/** A connection file: how instruments that do not speak the lines of a board are read. */
import { z } from 'zod';
import { limits } from '../../measure/limits.ts';
import type { ThermocoupleType } from '../../measure/thermocouple.ts';
import { type Problem, problems } from '../problems.ts';
import { type CsvFolder, folderSchema } from './folder.ts';
import { linesSchema, networkLinesSchema, type TextLines } from './lines.ts';
import { type ModbusRtu, type ModbusTcp, modbusRtuSchema, modbusTcpSchema } from './modbus.ts';

export type Connection = ModbusRtu | ModbusTcp | TextLines | CsvFolder;
export const connectionKinds = ['modbus rtu', 'modbus tcp', 'text lines', 'csv folder'] as const;
export type ConnectionKind = (typeof connectionKinds)[number];

/** All kinds, for an editor; what is read is checked by its own kind. */
export const connectionSchema = z.union([
  modbusRtuSchema,
  modbusTcpSchema,
  linesSchema,
  networkLinesSchema,
  folderSchema,
]);

export type ConnectionResult = { readonly connection: Connection } | { readonly problems: readonly Problem[] };

/** A string is taken as the text of a file, anything else as JSON that is parsed already. Never throws. */
export function readConnection(source: unknown): ConnectionResult {
  const parsed = typeof source === 'string' ? parseText(source) : { json: source };
  if ('problems' in parsed) return parsed;
  const schema = schemaFor(parsed.json);
  if (schema === undefined) {
    const kind = typeof parsed.json === 'object' && parsed.json !== null ? Reflect.get(parsed.json, 'kind') : undefined;
    return refused(
      'kind',
      kind === undefined ? 'nothing' : JSON.stringify(kind),
      `one of ${connectionKinds.map((each) => `"${each}"`).join(', ')}`,
    );
  }
  const result = schema.safeParse(parsed.json);
  if (!result.success) return { problems: problems(result.error, parsed.json, schema) };
  return { connection: result.data as Connection };
}

/** By its kind, so that what is wrong is told of that kind and of no other. */
function schemaFor(json: unknown): z.ZodType | undefined {
  if (typeof json !== 'object' || json === null) return undefined;
  switch (Reflect.get(json, 'kind')) {
    case 'modbus rtu':
      return modbusRtuSchema;
    case 'modbus tcp':
      return modbusTcpSchema;
    case 'text lines':
      return Object.hasOwn(json, 'host') ? networkLinesSchema : linesSchema;
    case 'csv folder':
      return folderSchema;
    default:
      return undefined;
  }
}

function parseText(text: string): { json: unknown } | { problems: readonly Problem[] } {
  if (text.length > limits.bodyMaximum)
    return refused('(whole)', `${text.length} characters`, `at most ${limits.bodyMaximum}; is this a connection file?`);
  try {
    return { json: JSON.parse(text.replace(/^\uFEFF/, '')) as unknown };
  } catch (cause) {
    return refused(
      '(whole)',
      `text that is not JSON (${(cause as Error).message})`,
      'a connection in JSON; look for a missing quote, comma or brace there',
    );
  }
}

const refused = (field: string, found: string, allowed: string): { readonly problems: readonly Problem[] } => ({
  problems: [{ field, found, allowed }],
});

/** One instrument of a connection: what a probe names as its board. */
export interface Connected {
  readonly board: string;
  /** What tells it from others on the same line: its port, and its address there. */
  readonly port: string;
  readonly channels: readonly {
    readonly channel: number;
    readonly thermocouple: ThermocoupleType;
    readonly form: 'voltage' | 'temperature';
  }[];
}

export function connectedBy(connection: Connection): readonly Connected[] {
  switch (connection.kind) {
    case 'modbus rtu':
    case 'modbus tcp':
      return connection.slaves.map(({ board, address, channels }) => ({
        board,
        port: `${placeOf(connection)} address ${address}`,
        channels: channels.map(({ channel, thermocouple, unit }) => ({ channel, thermocouple, form: formOf(unit) })),
      }));
    case 'text lines':
      return [
        {
          board: connection.board,
          port: placeOf(connection),
          channels: connection.channels.map(({ channel, thermocouple }) => ({
            channel,
            thermocouple,
            form: formOf(connection.unit),
          })),
        },
      ];
    case 'csv folder':
      return [
        {
          board: connection.board,
          port: placeOf(connection),
          channels: connection.channels.map(({ channel, thermocouple }) => ({
            channel,
            thermocouple,
            form: 'temperature',
          })),
        },
      ];
  }
}

/** The port, address or folder that is opened. Two connections cannot share it. */
export const placeOf = (connection: Connection): string =>
  'port' in connection
    ? connection.port
    : 'folder' in connection
      ? `${connection.folder}/${connection.files}`
      : `${connection.host}:${connection.tcpPort}`;

const formOf = (unit: string): 'voltage' | 'temperature' => (unit === 'microvolts' ? 'voltage' : 'temperature');
