/** Connection files that are plain in every respect, for tests to change one thing of. */
import { type Connection, readConnection } from '../../server/weld/connection/connection.ts';
import type { Outside } from '../../server/wire/connection/open-connection.ts';

const common = { format: 'preheat connection 1', name: 'bench', periodMilliseconds: 1000 };
const line = { port: 'COM3', baud: 9600, parity: 'none', stopBits: 1 };

const lines = {
  ...common,
  kind: 'text lines',
  board: 'box',
  unit: 'C',
  decimal: '.',
  channels: [{ channel: 1, thermocouple: 'K' }],
};
export const linesFile = (own: object = {}): object => ({ ...lines, ...line, dataBits: 8, ...own });
export const networkLinesFile = (own: object = {}): object => ({ ...lines, host: '192.0.2.7', tcpPort: 4001, ...own });

/** One step of a tenth, register 1 of a manual that counts from 1. */
export const register = { channel: 1, thermocouple: 'K', register: 1, number: 'int16', scale: 0.1, unit: 'C' };
export const slaveFile = (own: object = {}): object => ({
  ...{ board: 'TC-1', address: 3, registers: 'input', firstRegister: 1, channels: [register] },
  ...own,
});
export const rtuFile = (slaves: readonly object[] = [slaveFile()], own: object = {}): object => ({
  ...{ ...common, ...line, parity: 'even', kind: 'modbus rtu', slaves },
  ...own,
});

export const folderFile = (own: object = {}): object => ({
  ...common,
  kind: 'csv folder',
  board: 'logger',
  folder: 'C:/logs',
  files: 'run-*.csv',
  decimal: ',',
  channels: [
    { channel: 1, thermocouple: 'K', column: 'TC1 (C)' },
    { channel: 2, thermocouple: 'J', column: 'TC2 (C)' },
  ],
  ...own,
});

/** Of a file that must be right. */
export const connectionIn = <C extends Connection>(file: object): C => {
  const result = readConnection(file);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.connection as C;
};

/** What must be said of that field of a file that is wrong; undefined where nothing is. */
export const allowedIn = (file: object, field: string): string | undefined => {
  const result = readConnection(file);
  return 'problems' in result ? result.problems.find((each) => each.field === field)?.allowed : undefined;
};

/** A world in which nothing can be opened but what a test puts in. */
export const outsideWith = (own: Partial<Outside> = {}): Outside => {
  const refuse = () => Promise.reject(new Error('not here'));
  return {
    ...{ serial: () => refuse, network: refuse, modbusTcp: refuse, files: { list: refuse, read: refuse } },
    ...own,
  };
};
