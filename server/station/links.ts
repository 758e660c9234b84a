/** The links of a station: each port that it may open, tied to the trip, the signals and the terminal. */
import type { Reply } from '../../firmware-protocol/codec/frame.ts';
import type { Captures } from '../diagnosis/captures.ts';
import { type Heard, heardBoard } from '../diagnosis/heard.ts';
import type { LinksDesk } from '../diagnosis/router.ts';
import { linksView } from '../diagnosis/view.ts';
import type { Pipeline } from '../pipeline.ts';
import type { Signals } from '../signal/signals.ts';
import { createBoardBook } from '../wire/board-book.ts';
import type { WireEvent } from '../wire/event.ts';
import { createLinkKeeper, type LinkKeeper } from '../wire/link-keeper.ts';
import { portIdentity } from '../wire/port-identity.ts';
import { type Link, openLink } from '../wire/serial-link.ts';
import type { Connections } from './connections.ts';
import type { StationOptions } from './options.ts';

export interface LinksParts {
  readonly options: StationOptions;
  readonly pipeline: Pipeline;
  readonly signals: Signals | undefined;
  /** All links of the station, those of connected instruments too. */
  readonly links: Map<string, Link>;
  readonly hearLink: (port: string, event: WireEvent & { type: 'link' }) => void;
  readonly claimedBy: (port: string) => string | undefined;
}

export function stationLinks({ options, pipeline, signals, links, hearLink, claimedBy }: LinksParts): LinkKeeper {
  const { clock, openPort, platform, baudRate, watch } = options;
  const book = createBoardBook(clock);
  for (const [board, before] of pipeline.heardBefore()) book.resume(board, before);

  const onLink = (event: WireEvent & { type: 'link' }): void => {
    const { port, state } = event;
    hearLink(port, event);
    if (state !== 'open') signals?.lost(port);
    // What stands behind the port is asked anew at each opening: another cable may be in it now.
    else void portIdentity(port, watch?.list).then((identity) => pipeline.portIdentified(port, identity));
  };

  /** A port that was let go may be a connected instrument's by now. */
  const own = new Map<string, Link>();
  return createLinkKeeper({
    named: options.ports,
    usb: options.usb ?? [],
    clock,
    claimedBy,
    tell: options.tell,
    onLink: (port, link) => {
      if (link !== undefined) {
        own.set(port, link);
        links.set(port, link);
      } else if (links.get(port) === own.get(port)) links.delete(port);
    },
    ...(watch === undefined ? {} : { watch }),
    open: (path, how) =>
      openLink({
        path,
        openPort,
        clock,
        platform,
        book,
        ...(baudRate === undefined ? {} : { baudRate }),
        ...how,
        onEvent: (event) => {
          if (event.type === 'link') onLink(event);
          if (event.type === 'hello') signals?.heard(path, event.hello);
          pipeline.wire(event);
        },
        onReply: (reply: Reply) => signals?.reply(path, reply),
      }),
  });
}

/** The page of links: how the ports stand, raw lines, captures beside the record. */
export function linksDesk(parts: {
  readonly options: StationOptions;
  readonly pipeline: Pipeline;
  readonly keeper: LinkKeeper;
  readonly links: ReadonlyMap<string, Link>;
  readonly linkEvents: ReadonlyMap<string, WireEvent & { type: 'link' }>;
  readonly captures: Captures;
  readonly claimedBy: (port: string) => string | undefined;
  readonly instrument: Connections['read'];
}): LinksDesk {
  const { options, pipeline, keeper, links, linkEvents, captures, claimedBy, instrument } = parts;
  const heard = (port: string): Heard | undefined => {
    const board = keeper.links.get(port);
    return board === undefined ? instrument(port)?.heard : heardBoard(port, board);
  };
  return {
    captures,
    heard,
    retry: keeper.retry,
    view: () =>
      linksView({
        now: options.clock.wall(),
        platform: options.platform,
        links,
        heard,
        boardLink: (port) => keeper.links.get(port),
        events: linkEvents,
        board: (port) => {
          const found = [...pipeline.intake.boards.byId.values()].find((each) => each.port === port);
          return found === undefined ? undefined : { board: found.hello.board, simulated: found.hello.simulated };
        },
        listed: keeper.listed(),
        claimedBy,
        instrument,
        captures,
      }),
  };
}
