/**
 * Keeps a link for each port that this station may open: those that were named, and those whose USB identity was. Looks
 * each second what is plugged in, takes up what comes, and tries at once what comes back. Promise: nothing is opened
 * that nobody named or allowed, also where another device takes the place of one that was pulled out.
 */
import type { Clock } from '../measure/clock.ts';
import { limits } from '../measure/limits.ts';
import { milliseconds } from '../measure/quantity.ts';
import type { Advised } from './port-advice.ts';
import { isSamePort, type ListedPort, type ListPorts } from './port-identity.ts';
import type { BoardLink, LinkOptions } from './serial-link.ts';
import { allows, type UsbRule, usbIdentity } from './usb-rule.ts';

/** How it is known what is plugged in. */
export interface PortWatch {
  readonly list: ListPorts;
  /** Changes when a port comes or goes; undefined where that cannot be told without listing. */
  stamp(): string | undefined;
  /** Of one device node, changes when it is made anew; undefined while it is not there or has no node. */
  node(path: string): string | undefined;
}

export interface KeeperOptions {
  readonly named: readonly string[];
  readonly usb: readonly UsbRule[];
  readonly clock: Clock;
  /** The connection that reads this port, if any: it is no board's then. */
  readonly claimedBy?: (port: string) => string | undefined;
  /** Absent where the ports are played: then nothing comes or goes but by itself. */
  readonly watch?: PortWatch;
  /** Told of each link that begins, and of each that ends, without it. */
  readonly onLink?: (port: string, link?: BoardLink) => void;
  readonly open: (port: string, how: Pick<LinkOptions, 'mayOpen' | 'listenFirst'>) => BoardLink;
  /** For the terminal: what cannot be done, once. */
  readonly tell: (line: string) => void;
}

export interface LinkKeeper {
  readonly links: ReadonlyMap<string, BoardLink>;
  /** Ports as they were last listed. */
  listed(): readonly ListedPort[];
  /** Somebody asks for this port: what is plugged in there now is taken for what was meant. False if it has no link. */
  retry(port: string): boolean;
  close(): Promise<void>;
}

export function createLinkKeeper(options: KeeperOptions): LinkKeeper {
  const { named, usb, clock, open, tell, claimedBy = () => undefined } = options;
  const { list, stamp, node } = options.watch ?? nothingPlugged;
  const links = new Map<string, BoardLink>();
  /** USB identity that was meant with a named port: that of the first device seen there. */
  const meant = new Map<string, string>();
  const nodes = new Map<string, string | undefined>();
  let ports: readonly ListedPort[] = [];
  let lookedAt: string | undefined;
  let cannotList = false;
  let closed = false;
  let cancel = (): void => {};

  const relist = async (): Promise<void> => {
    try {
      ports = await list();
      cannotList = false;
    } catch {
      if (!cannotList && usb.length > 0)
        tell('This system cannot list its ports, so that none is found by itself: name them with --port.');
      cannotList = true;
    }
  };

  const listedAt = (path: string): ListedPort | undefined => ports.find((port) => isSamePort(port.path, path));

  /** The first device that is seen at a named port is the one that was meant. */
  const mean = (path: string): void => {
    const port = named.includes(path) && !meant.has(path) ? listedAt(path) : undefined;
    const identity = port === undefined ? '' : usbIdentity(port);
    if (identity !== '') meant.set(path, identity);
  };

  /** Of a device that is there; what is not there is tried, and fails with the words of the system. */
  const mayOpen = async (path: string): Promise<Advised | undefined> => {
    const claim = claimedBy(path);
    if (claim !== undefined) return claimed(claim);
    if (options.watch === undefined) return undefined;
    const now = stamp();
    if (now === undefined || now !== lookedAt) await relist();
    // A port is there before the system knows whose it is.
    if (listedAt(path) === undefined && node(path) !== undefined) await relist();
    const port = listedAt(path);
    if (port === undefined) return undefined;
    const identity = usbIdentity(port);
    if (identity === '') return undefined;
    if (!named.includes(path))
      return usb.some((rule) => allows(rule, port)) || follows(port) ? undefined : another(path, identity);
    mean(path);
    const first = meant.get(path);
    return first === identity ? undefined : another(path, identity, first);
  };

  /** The adapter of a named port, known by its serial number, that was plugged in elsewhere. */
  const follows = (port: ListedPort): boolean =>
    port.serialNumber !== undefined && [...meant.values()].includes(usbIdentity(port));

  const add = (path: string, found: boolean): void => {
    nodes.set(path, node(path));
    const link = open(path, { mayOpen: () => mayOpen(path), ...(found ? { listenFirst: true } : {}) });
    links.set(path, link);
    options.onLink?.(path, link);
  };

  const look = async (): Promise<void> => {
    const now = stamp();
    // A port is there before the system knows whose it is: what was new is looked at a second time.
    if (now !== undefined && now === lookedAt) return;
    lookedAt = now;
    await relist();
    if (closed) return;
    for (const path of links.keys()) {
      mean(path);
      const present = node(path) ?? (listedAt(path) === undefined ? undefined : 'listed');
      if (present !== undefined && present !== nodes.get(path)) links.get(path)!.retry();
      nodes.set(path, present);
    }
    for (const port of ports) {
      const isKnown = [...links.keys()].some((path) => isSamePort(path, port.path));
      if (isKnown || claimedBy(port.path) !== undefined) continue;
      if (!(usb.some((rule) => allows(rule, port)) || follows(port))) continue;
      if (links.size < limits.boardsMaximum || (await dropVanished())) add(port.path, true);
      else tell(`${port.path} is not opened: this station reads ${limits.boardsMaximum} ports already.`);
    }
  };

  /** Makes room: a port that was found and is gone need not be kept. */
  const dropVanished = async (): Promise<boolean> => {
    for (const [path, link] of links) {
      if (named.includes(path) || listedAt(path) !== undefined) continue;
      await drop(path, link);
      return true;
    }
    return false;
  };

  const drop = async (path: string, link: BoardLink): Promise<void> => {
    links.delete(path);
    options.onLink?.(path);
    await link.close();
  };

  /** What was found and is claimed since is let go; once nobody claims it any more it may be found again. */
  const letGo = async (): Promise<void> => {
    const claims = ports.map(({ path }) => claimedBy(path) ?? '').join('\n');
    if (claims !== claimsBefore) lookedAt = '';
    claimsBefore = claims;
    for (const [path, link] of links)
      if (!named.includes(path) && claimedBy(path) !== undefined) await drop(path, link);
  };

  let claimsBefore = '';
  let settling = 0;
  const eachSecond = (): void => {
    if (closed) return;
    const before = lookedAt;
    void letGo()
      .then(look)
      .then(() => {
        if (closed) return;
        // Once more after a change: names and rights of a new port come a moment after it.
        if (lookedAt !== before) settling = 1;
        else if (settling > 0 && lookedAt !== undefined) {
          settling -= 1;
          lookedAt = '';
        }
        const each = stamp() === undefined ? limits.portsListMilliseconds : limits.portsLookMilliseconds;
        cancel = clock.after(milliseconds(each), eachSecond);
      });
  };

  for (const path of named) add(path, false);
  if (options.watch !== undefined) eachSecond();

  return {
    links,
    listed: () => ports,
    retry: (path) => {
      const link = links.get(path);
      const port = listedAt(path);
      if (port !== undefined && named.includes(path)) meant.set(path, usbIdentity(port));
      link?.retry();
      return link !== undefined;
    },
    close: async () => {
      closed = true;
      cancel();
      await Promise.all([...links.values()].map((link) => link.close()));
    },
  };
}

const nothingPlugged: PortWatch = { list: async () => [], stamp: () => '', node: () => undefined };

const claimed = (name: string): Advised => ({
  cause: `the connection "${name}" reads this port`,
  advice:
    'It is not opened as the port of a board. Take the connection away on the page Instruments if a board is there.',
});

const another = (path: string, identity: string, first?: string): Advised => ({
  cause:
    first === undefined
      ? `another device is plugged in at ${path} now (USB ${identity})`
      : `another device is plugged in at ${path} now (USB ${identity}, before ${first})`,
  advice:
    'It is not opened, since nobody has named it: opening may start a device anew. Plug the board in again, or ask for this port on the page Links.',
});
