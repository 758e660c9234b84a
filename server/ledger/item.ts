/**
 * What is handed to the record, and what comes back once it is kept. A body is the act or the event
 * itself, with its kind, so that nothing is lost between the judge's input and the record.
 */
import type { Instant } from '../measure/quantity.ts';
import { type Act, actSchema, type Input, type StationEvent } from '../weld/entry.ts';
import type { ImportedAct } from '../weld/imported.ts';
import type { Scan } from '../weld/scan.ts';
import { type Signed, signedOf } from '../weld/signed.ts';

/** The chain of the station itself. */
export const stationChain = 'station';
/** The chain of the procedures. No joint can be called so: a joint's id has small letters only. */
export const proceduresChain = 'Procedures';
/** Every other chain is that of a joint. */
export const isJointChain = (chain: string): boolean => chain !== stationChain && chain !== proceduresChain;
/** Who, for what the station writes of its own accord. */
export const stationName = 'station';

/** 'block' is what the record itself writes: sealed scans, heads of the other chains, its own beginning. */
export type EntryClass = 'input' | 'conclusion' | 'block';

export interface ScanItem {
  readonly type: 'scan';
  readonly chain: string;
  readonly scan: Scan;
}
export interface EntryItem extends Signed {
  readonly type: 'entry';
  readonly chain: string;
  readonly at: Instant;
  readonly class: 'input' | 'conclusion';
  readonly kind: string;
  readonly body: unknown;
}
export type Item = ScanItem | EntryItem;

/** Kept. Position: one integer over all chains, one for each scan and entry, in order of arrival. */
export type CommittedScan = ScanItem & { readonly position: number };
export type CommittedEntry = EntryItem & {
  readonly position: number;
  /** Place in its chain, counted from 1; blocks count too. */
  readonly seq: number;
  readonly hash: string;
};
export type CommittedItem = CommittedScan | CommittedEntry;

/** Every kind of station event; the compiler refuses this list when one is missing. */
const stationKinds: Readonly<Record<StationEvent['kind'], true>> = {
  opened: true,
  'imported file': true,
  source: true,
  period: true,
  board: true,
  link: true,
  hole: true,
  twin: true,
  suspended: true,
  clock: true,
  station: true,
};
const actKinds: ReadonlySet<string> = new Set(actSchema.options.map((option) => option.shape.kind.value));

const importedActKind: ImportedAct['kind'] = 'imported act';
const actOfImported = ({ loggedAt: at, who, role, act }: ImportedAct): Input => ({
  type: 'act',
  at,
  who,
  ...(role === undefined ? {} : { role }),
  act,
});
const loggedAtOf = (event: StationEvent): Instant | undefined => ('loggedAt' in event ? event.loggedAt : undefined);

/** An input of a job that is kept from its logs: written now, by whoever keeps it, with the time that it has by the log. */
export const importedItem = (
  chain: string,
  at: Instant,
  by: Signed,
  input: Exclude<Input, { type: 'scan' }>,
): EntryItem => {
  const common = { type: 'entry', chain, at, ...signedOf(by), class: 'input' } as const;
  if (input.type === 'station')
    return { ...common, kind: input.event.kind, body: { ...input.event, loggedAt: input.at } };
  const { who, role, act } = input;
  const body: ImportedAct = {
    kind: importedActKind,
    loggedAt: input.at,
    who,
    ...(role === undefined ? {} : { role }),
    act,
  };
  return { ...common, kind: body.kind, body };
};

/** Whether the body is of a job that is kept from its logs, with the time that it has by them. */
export const isImported = (body: unknown): boolean => typeof body === 'object' && body !== null && 'loggedAt' in body;

interface IsClosing {
  readonly class: EntryClass;
  readonly kind: string;
  readonly body: unknown;
}
/** Whether nothing more comes to the chain after the entry. */
export const isClosing = ({ class: of, kind, body }: IsClosing): boolean =>
  of === 'input' && (kind === 'close' || (kind === importedActKind && (body as ImportedAct).act.kind === 'close'));

/** An input of the judge as an item of a chain. */
export const itemOf = (chain: string, input: Input): Item => {
  if (input.type === 'scan') return { type: 'scan', chain, scan: input.scan };
  const common = { type: 'entry', chain, at: input.at, class: 'input' } as const;
  if (input.type === 'station') return { ...common, who: stationName, kind: input.event.kind, body: input.event };
  return { ...common, ...signedOf(input), kind: input.act.kind, body: input.act };
};

/** The judge's input in an item; undefined for a conclusion. Throws for an input of a kind not known here. */
export const inputOf = (item: Item): Input | undefined => {
  if (item.type === 'scan') return { type: 'scan', scan: item.scan };
  if (item.class !== 'input') return undefined;
  if (item.kind === importedActKind) return actOfImported(item.body as ImportedAct);
  if (Object.hasOwn(stationKinds, item.kind)) {
    const event = item.body as StationEvent;
    return { type: 'station', at: loggedAtOf(event) ?? item.at, event };
  }
  if (!actKinds.has(item.kind)) {
    throw new Error(
      `The record holds an input of the kind "${item.kind}" in ${item.chain}, which this program does not know. ` +
        'It cannot be judged here: use the program version that wrote it, or a newer one.',
    );
  }
  return { type: 'act', at: item.at, ...signedOf(item), act: item.body as Act };
};
