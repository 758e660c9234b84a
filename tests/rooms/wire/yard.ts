/** A computer with USB ports on a hand-moved clock: boards are plugged in and pulled out, and the links are kept for them. */
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import { createBoardBook } from '../../../server/wire/board-book.ts';
import type { WireEvent } from '../../../server/wire/event.ts';
import { createInProcessPort, type InProcessPort } from '../../../server/wire/in-process-port.ts';
import { createLinkKeeper, type LinkKeeper } from '../../../server/wire/link-keeper.ts';
import type { ListedPort } from '../../../server/wire/port-identity.ts';
import { openLink } from '../../../server/wire/serial-link.ts';
import { readUsbRule } from '../../../server/wire/usb-rule.ts';
import { createHandClock, type HandClock } from './hand-clock.ts';

export interface Plugged {
  /** Vendor, product and serial number, as in "1a86:7523:5573". */
  readonly usb?: string;
  /** What it says in so much time; a board hears as well. */
  readonly speaks: Pick<Board, 'advance' | 'receive'>;
}

export interface Yard {
  readonly clock: HandClock;
  readonly keeper: LinkKeeper;
  readonly events: WireEvent[];
  readonly told: string[];
  /** How often each port was opened. */
  readonly openings: Map<string, number>;
  plug(path: string, what: Plugged): void;
  /** The system tells of it, unless it is pulled out silently. */
  pull(path: string, silently?: boolean): void;
  run(milliseconds: number): Promise<void>;
  last(path: string): WireEvent & { type: 'link' };
  samples(path?: string): Extract<WireEvent, { type: 'sample' }>[];
  close(): Promise<void>;
}

export function createYard(
  named: readonly string[],
  usb: readonly string[] = [],
  claimedBy: (port: string) => string | undefined = () => undefined,
): Yard {
  const clock = createHandClock();
  const events: WireEvent[] = [];
  const told: string[] = [];
  const openings = new Map<string, number>();
  const plugged = new Map<string, Plugged & { readonly cable: InProcessPort; readonly node: string }>();
  let nodes = 0;
  const book = createBoardBook(clock);
  const listed = (): ListedPort[] =>
    [...plugged].map(([path, each]) => {
      const [vendorId, productId, serialNumber] = each.usb?.split(':') ?? [];
      return { path, vendorId, productId, serialNumber };
    });

  const keeper = createLinkKeeper({
    named,
    usb: usb.map((text) => readUsbRule(text)!),
    clock,
    claimedBy,
    tell: (line) => told.push(line),
    watch: {
      list: async () => listed(),
      stamp: () => [...plugged].map(([path, { node }]) => `${path} ${node}`).join(),
      node: (path) => plugged.get(path)?.node,
    },
    open: (path, how) =>
      openLink({
        path,
        clock,
        platform: 'linux',
        book,
        ...how,
        onEvent: (event) => events.push(event),
        openPort: async (asked, handlers, rate) => {
          const there = plugged.get(asked);
          if (there === undefined) throw new Error(`No such file or directory, cannot open ${asked}`);
          openings.set(asked, (openings.get(asked) ?? 0) + 1);
          return there.cable.openPort(asked, handlers, rate);
        },
      }),
  });

  return {
    clock,
    keeper,
    events,
    told,
    openings,
    plug(path, what) {
      const cable = createInProcessPort();
      cable.onData((bytes) => what.speaks.receive(bytes));
      nodes += 1;
      plugged.set(path, { ...what, cable, node: `node ${nodes}` });
    },
    pull(path, silently = false) {
      if (!silently) plugged.get(path)?.cable.unplug();
      plugged.delete(path);
    },
    async run(milliseconds) {
      for (let passed = 0; passed < milliseconds; passed += 100) {
        await clock.advance(100);
        for (const { cable, speaks } of plugged.values()) cable.write(speaks.advance(100));
      }
      await clock.advance(0);
    },
    last: (path) => events.filter((event) => event.type === 'link').findLast(({ port }) => port === path)!,
    samples: (path) =>
      events.filter((event) => event.type === 'sample' && (path === undefined || event.port === path)) as never,
    close: () => keeper.close(),
  };
}
