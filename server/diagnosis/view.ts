/** The page of links as one value, made when somebody looks. */
import type { Instant } from '../measure/quantity.ts';
import type { LinkRow, LinksView } from '../screen/links-view.ts';
import type { Connection } from '../weld/connection/connection.ts';
import { wayText } from '../weld/connection/given.ts';
import type { ReadCounts } from '../wire/connection/open-connection.ts';
import type { WireEvent } from '../wire/event.ts';
import type { ListedPort } from '../wire/port-identity.ts';
import type { BoardLink, Link } from '../wire/serial-link.ts';
import type { Captures } from './captures.ts';
import { hardwareText } from './hardware.ts';
import type { Heard } from './heard.ts';
import { plainWords } from './plain-words.ts';
import { rightsProblem } from './rights.ts';

export interface DiagnosisParts {
  readonly now: Instant;
  readonly platform: string;
  /** All links, also those of connected instruments. */
  readonly links: ReadonlyMap<string, Link>;
  readonly heard: (port: string) => Heard | undefined;
  readonly boardLink: (port: string) => BoardLink | undefined;
  readonly events: ReadonlyMap<string, WireEvent & { type: 'link' }>;
  readonly board: (port: string) => { readonly board: string; readonly simulated: boolean } | undefined;
  readonly listed: readonly ListedPort[];
  readonly captures: Captures;
  readonly claimedBy: (port: string) => string | undefined;
  /** Of an instrument that is no board. */
  readonly instrument: (port: string) => { readonly connection: Connection; readonly counts: ReadCounts } | undefined;
}

export function linksView(parts: DiagnosisParts): LinksView {
  const { links, listed, captures } = parts;
  return {
    links: [...links].map(([port, link]) => rowOf(port, link, parts)),
    unopened: listed
      .filter(({ path }) => !links.has(path))
      .map((port) => ({ port: port.path, hardware: hardwareText(port), words: whyUnopened(port.path, parts) })),
    captures: captures.list(),
  };
}

function whyUnopened(port: string, { platform, claimedBy }: DiagnosisParts): string {
  const connection = claimedBy(port);
  if (connection !== undefined) return `It is no board's port: ${connection} reads an instrument there.`;
  return (
    rightsProblem(port, platform) ??
    'Not opened, since nobody named it. If a board of this station is behind it, start with --port or --usb.'
  );
}

/** Several modules share a port; an address and a folder are none. */
function wayThere(connection: Connection | undefined, port: string, { listed }: DiagnosisParts): string {
  if (connection === undefined || 'port' in connection)
    return hardwareText(listed.find(({ path }) => path === (connection?.port ?? port)));
  return wayText(connection.kind);
}

const recent = 10_000;

function rowOf(port: string, link: Link, parts: DiagnosisParts): LinkRow {
  const { now, boardLink, events, board, captures, platform } = parts;
  const event = events.get(port);
  const own = boardLink(port);
  const instrument = parts.instrument(port);
  const counts = own?.counts() ?? link.counts();
  const { state = 'opening', cause = `opening ${port}`, advice, leftAlone = false } = event ?? {};
  const path = instrument !== undefined && 'port' in instrument.connection ? instrument.connection.port : port;
  const rights = state === 'open' ? undefined : rightsProblem(path, platform);
  const facts = {
    ...{ state, cause, leftAlone, counts },
    ...(advice === undefined ? {} : { advice }),
    ...(instrument === undefined ? {} : { read: instrument.counts }),
  };
  const told = plainWords(facts);
  // What the system says of rights is told once, by the words that know the group.
  const words = rights === undefined ? told : [rights, ...told.slice(state === 'refused' && !leftAlone ? 1 : 0)];
  const said = board(port);
  const heard = parts.heard(port);
  const came = heard?.lines(0).filter(({ way }) => way === 'in') ?? [];
  const last = came.at(-1)?.at;
  const capturing = heard && captures.running(heard.port);
  return {
    port,
    state,
    cause,
    leftAlone,
    hardware: wayThere(instrument?.connection, port, parts),
    words: words.length === 0 ? ['Reads well.'] : words,
    isWell: words.length === 0,
    isBoardPort: own !== undefined,
    isHeard: heard !== undefined,
    canCapture: heard?.bytes !== undefined,
    linesGood: counts.linesGood,
    linesBad: counts.linesBad,
    linesMissing: counts.linesMissing,
    bytesDropped: counts.bytesDropped,
    faults:
      instrument?.counts.errors ?? Object.entries(own?.counts().faults ?? {}).map(([what, times]) => ({ what, times })),
    ...(said === undefined ? {} : said),
    ...(own === undefined
      ? {}
      : {
          baudRate: own.baudRate(),
          openings: own.counts().openings,
          losses: own.counts().losses,
        }),
    // Of slaves that share a line nobody knows here whose answer it is.
    ...(heard === undefined || heard.port !== port
      ? {}
      : { linesPerSecond: came.filter(({ at }) => at > now - recent).length / (recent / 1000) }),
    ...(last === undefined ? {} : { lastAt: last }),
    ...(capturing === undefined ? {} : { capturing: { name: capturing.name, until: capturing.until } }),
  };
}
