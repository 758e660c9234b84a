/**
 * What can be known of a port before any board speaks: whether it is a pseudo-terminal, and the identity of
 * the adapter behind it. A convenience and a first word on the source only; the board's own identity counts.
 */
import { realpathSync } from 'node:fs';
import { systemPorts } from './list-ports.ts';

export interface PortIdentity {
  /** True if a piece of hardware with an identity of its own stands behind the port. */
  readonly verified: boolean;
  readonly detail: string;
}

/** The facts of one port as the system lists them; what the system does not know is absent. */
export interface ListedPort {
  readonly path: string;
  readonly vendorId?: string | undefined;
  readonly productId?: string | undefined;
  readonly serialNumber?: string | undefined;
  readonly manufacturer?: string | undefined;
  readonly product?: string | undefined;
  /** Name of the kernel's driver. */
  readonly driver?: string | undefined;
}

export type ListPorts = () => Promise<readonly ListedPort[]>;

/** list: how the system's ports are listed; handed in by tests. Never rejects. */
export const portIdentity = async (
  path: string,
  list: ListPorts = systemPorts(process.platform),
): Promise<PortIdentity> => {
  if (isPseudoTerminal(path)) return { verified: false, detail: 'a pseudo-terminal: a program stands behind it' };
  let ports: readonly ListedPort[];
  try {
    ports = await list();
  } catch {
    return { verified: false, detail: 'this system cannot list its ports' };
  }
  const found = ports.find((port) => isSamePort(port.path, path));
  if (found === undefined) return { verified: false, detail: 'the system does not list this port' };
  if (found.vendorId === undefined || found.productId === undefined) {
    return { verified: false, detail: 'the port has no hardware identity' };
  }
  const serial = found.serialNumber === undefined ? 'no serial number' : `serial number ${found.serialNumber}`;
  return { verified: true, detail: `USB ${found.vendorId}:${found.productId}, ${serial}` };
};

/** True for the slave's end of a pseudo-terminal on Linux and macOS, also through a symbolic link. */
export const isPseudoTerminal = (path: string): boolean => /^\/dev\/(pts\/\d+|ttys\d+|ttyp\w+)$/.test(realPath(path));

/** Whether both name the same device, also where one is a lasting name that leads to the other. */
export const isSamePort = (one: string, other: string): boolean => portKey(one) === portKey(other);

/** Windows knows no difference between COM3, com3 and \\.\COM3. */
const portKey = (path: string): string =>
  /^(\\\\\.\\)?com\d+$/i.test(path) ? path.replace(/^\\\\\.\\/, '').toUpperCase() : realPath(path);

const realPath = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
};
