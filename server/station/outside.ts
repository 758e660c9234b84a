/** What connections touch of this machine: its serial ports and its network. */
import { diskFiles } from '../wire/connection/disk-files.ts';
import { openModbusTcp } from '../wire/connection/modbus-tcp.ts';
import { networkOpener } from '../wire/connection/network-port.ts';
import type { Outside } from '../wire/connection/open-connection.ts';
import { serialPortOpener } from '../wire/serial-port.ts';

export const machineOutside = (): Outside => ({
  serial: ({ baud, parity, stopBits, dataBits = 8 }) => serialPortOpener(baud, { parity, stopBits, dataBits }),
  network: networkOpener,
  files: diskFiles,
  modbusTcp: openModbusTcp,
});
