/**
 * Which serial ports this computer has. On Linux they are read from the kernel's own tree, since the usual way starts a
 * program that small systems and containers do not have; elsewhere the serial library lists them.
 */
import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { SerialPort } from 'serialport';
import type { PortWatch } from './link-keeper.ts';
import type { ListedPort, ListPorts } from './port-identity.ts';

export const systemPorts = (platform: string): ListPorts =>
  platform === 'linux' ? async () => linuxPorts('/sys/class/tty', '/dev') : () => SerialPort.list();

/** Ports with a device behind them; of the four or more that a PC names without having them only those with a driver of their own. */
export function linuxPorts(tree: string, devices: string): ListedPort[] {
  return namesIn(tree).flatMap((name) => {
    const device = real(join(tree, name, 'device'));
    if (device === undefined) return [];
    const driver = real(join(device, 'driver'));
    const driverName = driver === undefined ? undefined : basename(driver);
    if (driverName === undefined || ['serial8250', 'port', 'ctrl'].includes(driverName)) return [];
    const path = join(devices, name);
    if (statSync(path, { throwIfNoEntry: false }) === undefined) return [];
    return [{ path, driver: driverName, ...usbOf(device) }];
  });
}

/** The USB device stands some steps above the port: of each adapter another number of them. */
function usbOf(device: string): Omit<ListedPort, 'path' | 'driver'> {
  for (let at = device, steps = 0; steps < 6 && at !== '/'; at = dirname(at), steps += 1) {
    const vendorId = text(join(at, 'idVendor'));
    const productId = text(join(at, 'idProduct'));
    if (vendorId === undefined || productId === undefined) continue;
    return {
      vendorId,
      productId,
      serialNumber: text(join(at, 'serial')),
      manufacturer: text(join(at, 'manufacturer')),
      product: text(join(at, 'product')),
    };
  }
  return {};
}

/**
 * Changes when a port comes or goes, at the cost of reading one folder; a node that was made anew counts as another.
 * Undefined where the system has no such folder: then the ports have to be listed each time.
 */
export function portsStamp(platform: string, devices = '/dev'): string | undefined {
  if (platform === 'win32') return undefined;
  const isPort = platform === 'darwin' ? /^cu\./ : /^tty([A-Z]{2,}|AMA|SC)\d+$/;
  const names = namesIn(devices).filter((name) => isPort.test(name));
  return names.map((name) => `${name} ${nodeOf(join(devices, name)) ?? ''}`).join('\n');
}

/** Of the device node, so that one that was pulled out and plugged in again is known; undefined if it is not there. */
export function nodeOf(path: string): string | undefined {
  const stat = statSync(path, { throwIfNoEntry: false, bigint: true });
  return stat === undefined ? undefined : `${stat.dev} ${stat.ino} ${stat.birthtimeNs}`;
}

/** All of it for this computer. */
export const systemWatch = (platform: string): PortWatch => ({
  list: systemPorts(platform),
  stamp: () => portsStamp(platform),
  node: nodeOf,
});

const namesIn = (folder: string): string[] => {
  try {
    return readdirSync(folder).sort();
  } catch {
    return [];
  }
};

const real = (path: string): string | undefined => {
  try {
    return realpathSync(path);
  } catch {
    return undefined;
  }
};

const text = (path: string): string | undefined => {
  try {
    const read = readFileSync(path, 'utf8').trim();
    return read === '' ? undefined : read;
  } catch {
    return undefined;
  }
};
