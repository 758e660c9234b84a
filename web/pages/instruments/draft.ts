/** A connection as one enters it: texts by field, and the file that comes of them. What is empty is left out, so that the station asks for it. */
import { limits } from '../../../server/measure/limits.ts';
import type { ConnectionKind } from '../../../server/weld/connection/connection.ts';
import type { Draft } from './entries.ts';

export const kindTexts: Readonly<Record<ConnectionKind, string>> = {
  'modbus rtu': 'Modbus on a serial line',
  'modbus tcp': 'Modbus on the network',
  'text lines': 'Prints lines of text',
  'csv folder': 'Another logger writes CSV files',
};

/** Unit, scale and decimal mark are asked for: degrees Fahrenheit read as Celsius look like a steel that is hot enough. */
export const emptyDraft: Draft = { kind: '', seconds: '1', channels: '1', line: 'serial' };

/** What `readConnection` reads, or says what is missing in. */
export function connectionOf(draft: Draft): Record<string, unknown> {
  const at = reader(draft);
  const common = {
    format: 'preheat connection 1',
    kind: draft.kind,
    name: at.text('name'),
    periodMilliseconds: thousandTimes(at.number('seconds')),
  };
  switch (draft.kind) {
    case 'modbus rtu':
      return present({ ...common, ...serialOf(at), slaves: slavesOf(at) });
    case 'modbus tcp':
      return present({ ...common, ...addressOf(at), slaves: slavesOf(at) });
    case 'text lines':
      return present({ ...common, ...linesOf(at) });
    default:
      return present({ ...common, ...folderOf(at) });
  }
}

interface Reader {
  text(name: string): string | undefined;
  /** A text that is no number stays one, so that it is told as what it is. */
  number(name: string): number | string | undefined;
}

const reader = (draft: Draft): Reader => {
  const text = (name: string): string | undefined => {
    const found = draft[name]?.trim() ?? '';
    return found === '' ? undefined : found;
  };
  return {
    text,
    number(name) {
      const found = text(name);
      if (found === undefined) return undefined;
      const number = Number(found.replace(',', '.'));
      return Number.isNaN(number) ? found : number;
    },
  };
};

const thousandTimes = (seconds: number | string | undefined): number | string | undefined =>
  typeof seconds === 'number' ? Math.round(seconds * 1000) : seconds;

const present = (all: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));

const serialOf = (at: Reader) => ({
  port: at.text('port'),
  baud: at.number('baud'),
  parity: at.text('parity'),
  stopBits: at.number('stopBits'),
});

const addressOf = (at: Reader) => ({ host: at.text('host'), tcpPort: at.number('tcpPort') });

/** What is no number of channels stays as it was typed, so that it is told. */
const numbered = <T>(at: Reader, each: (channel: number) => T): T[] | number | string | undefined => {
  const count = at.number('channels');
  return typeof count === 'number' && Number.isInteger(count) && count >= 1 && count <= limits.channelsMaximum
    ? Array.from({ length: count }, (_, index) => each(index + 1))
    : count;
};

/** Modules of one kind, one behind the other on the line; what is not alike is written into the file. */
function slavesOf(at: Reader): unknown[] {
  const addresses = (at.text('addresses') ?? '').split(/[\s,;]+/).filter((each) => each !== '');
  const form = at.text('number');
  const step = form === undefined || form.endsWith('16') ? 1 : 2;
  const first = at.number('register');
  const fault = faultOf(at.text('rawFault')?.toUpperCase(), 'raw');
  return (addresses.length === 0 ? [''] : addresses).map((address) =>
    present({
      board:
        addresses.length > 1 && at.text('board') !== undefined ? `${at.text('board')}-${address}` : at.text('board'),
      address: address === '' ? undefined : Number.isNaN(Number(address)) ? address : Number(address),
      registers: at.text('registers'),
      firstRegister: at.number('firstRegister'),
      channels: numbered(at, (channel) =>
        present({
          channel,
          thermocouple: at.text('thermocouple'),
          register: typeof first === 'number' ? first + step * (channel - 1) : first,
          number: form,
          words: step === 2 ? at.text('words') : undefined,
          scale: at.number('scale'),
          unit: at.text('unit'),
          faults: fault,
        }),
      ),
    }),
  );
}

/** One value that stands for a broken wire. */
const faultOf = (said: string | undefined, name: 'raw' | 'text'): unknown[] | undefined =>
  said === undefined ? undefined : [{ [name]: said, means: 'open' }];

function linesOf(at: Reader) {
  const pattern = at.text('pattern');
  return {
    ...(at.text('line') === 'network' ? addressOf(at) : { ...serialOf(at), dataBits: at.number('dataBits') }),
    board: at.text('board'),
    query: at.text('query')?.replaceAll('\\r', '\r').replaceAll('\\n', '\n'),
    lineEnd: at.text('lineEnd'),
    pattern,
    separator: pattern === undefined ? at.text('separator') : undefined,
    check: checkOf(at),
    unit: at.text('lineUnit'),
    decimal: at.text('decimal'),
    faults: faultOf(at.text('textFault'), 'text'),
    channels: numbered(at, (channel) =>
      present({
        channel,
        thermocouple: at.text('thermocouple'),
        column: pattern === undefined ? column(at.number('column'), channel) : undefined,
      }),
    ),
  };
}

const checkOf = (at: Reader): Record<string, unknown> | undefined => {
  const kind = at.text('checkKind');
  return kind === undefined ? undefined : present({ kind, behind: at.text('checkBehind'), from: at.text('checkFrom') });
};

const column = (first: number | string | undefined, channel: number): number | string | undefined =>
  typeof first === 'number' ? first + channel - 1 : first;

function folderOf(at: Reader) {
  const headers = (at.text('columns') ?? '').split(/[;\n]/).map((each) => each.trim());
  return {
    board: at.text('board'),
    folder: at.text('folder'),
    files: at.text('files'),
    decimal: at.text('decimal'),
    unit: at.text('unit'),
    order: at.text('order'),
    clock: at.text('clock'),
    numbers: at.text('numbers'),
    timeColumn: at.text('timeColumn'),
    channels: headers.map((header, index) =>
      present({
        channel: index + 1,
        thermocouple: at.text('thermocouple'),
        column: header === '' ? undefined : header,
      }),
    ),
  };
}

/** What was entered, as this device keeps it. */
export const isDraft = (value: unknown): value is Draft =>
  typeof value === 'object' && value !== null && Object.values(value).every((each) => typeof each === 'string');
