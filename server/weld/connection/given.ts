/** How a connected instrument is read, in words. */
import type { Connection, ConnectionKind } from './connection.ts';

const ways: Readonly<Record<ConnectionKind, string>> = {
  'modbus rtu': 'Modbus RTU',
  'modbus tcp': 'Modbus TCP',
  'text lines': 'lines of text',
  'csv folder': 'CSV files of another logger',
};
export const wayText = (kind: ConnectionKind): string => ways[kind];

/** What stands for a board's firmware: how it is read, and whose temperatures these are. */
export const givenText = (connection: Connection, board: string): string =>
  `${ways[connection.kind]}, ${isVoltage(connection, board) ? 'voltages' : 'temperatures as it works them out itself'}`;

const isVoltage = (connection: Connection, board: string): boolean => {
  if ('slaves' in connection) {
    const slave = connection.slaves.find((each) => each.board === board);
    return slave?.channels.every(({ unit }) => unit === 'microvolts') === true;
  }
  return connection.kind === 'text lines' && connection.unit === 'microvolts';
};

/** Why a source stays "not verified" until somebody says what is connected. */
export const unidentifiedText = (kind: ConnectionKind, adapter: string): string => {
  switch (kind) {
    case 'modbus rtu':
    case 'text lines':
      return adapter === ''
        ? 'a network address, which shows nothing of the device behind it'
        : `the instrument does not identify itself; its port: ${adapter}`;
    case 'modbus tcp':
      return 'a network address, which shows nothing of the device behind it';
    case 'csv folder':
      return 'files that another program writes';
  }
};
