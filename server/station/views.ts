/** What the screen's routes ask of the station: open joints from the trip's own memory, closed ones and long views from the record by errand. */

import type { Errand, Judged, Outcome } from '../errands/errand.ts';
import type { Conclusion } from '../judgement/conclusions.ts';
import { headFileName, headFileText, signedHeadText } from '../ledger/head-text.ts';
import { type CommittedEntry, inputOf, isImported, isJointChain, proceduresChain } from '../ledger/item.ts';
import { keptRevisions } from '../ledger/procedures.ts';
import type { RemovalEntry } from '../ledger/removal-entry.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Pipeline } from '../pipeline.ts';
import { wiringProblems } from '../reading/wiring.ts';
import type { RecordReader } from '../record/read.ts';
import { repairsOf } from '../record/repairs.ts';
import { requestFor } from '../record/stamping.ts';
import type { JointState, KeepingView, LinkView, SignalView, StationView, TimelineEvent } from '../screen/contract.ts';
import type { ViewSource } from '../screen/views.ts';
import { wayText } from '../weld/connection/given.ts';
import { arrival } from '../weld/entry.ts';
import type { Joint } from '../weld/joint.ts';
import { bindingOf, type KeptRevision } from '../weld/procedure-act.ts';
import { signedOf } from '../weld/signed.ts';
import type { WireEvent } from '../wire/event.ts';
import type { Link } from '../wire/serial-link.ts';
import { attentionOf } from './attention.ts';
import { closedList } from './closed-list.ts';
import type { Connections } from './connections.ts';
import type { StationOptions } from './options.ts';
import { withReadings } from './where-readings.ts';

export interface ViewParts {
  readonly options: StationOptions;
  readonly record: RecordReader;
  readonly pipeline: Pipeline;
  readonly links: ReadonlyMap<string, Link>;
  readonly linkEvents: ReadonlyMap<string, WireEvent & { type: 'link' }>;
  readonly connections: Pick<Connections, 'read'>;
  /** Undefined where outputs were not asked for. */
  readonly signals?: () => readonly SignalView[] | undefined;
  readonly keeping?: () => KeepingView;
  readonly errand: <E extends Errand>(errand: E) => Promise<Outcome<E>>;
}

export function stationViews({
  options,
  record,
  pipeline,
  links,
  linkEvents,
  connections,
  signals,
  errand,
  keeping,
}: ViewParts): ViewSource {
  const { demonstration } = options;
  /** A closed joint does not change but in where its readings are: it is judged once. */
  const closed = new Map<string, Promise<Judged>>();

  const closedJoints = closedList(record, errand);

  const known = (id: string): boolean => isJointChain(id) && record.head(id).seq > 0;

  const judged = async (id: string): Promise<Judged> => {
    const run = pipeline.run(id);
    if (run !== undefined) {
      const { joint, assessment, judge } = run;
      const courses = judge.courses(assessment.at);
      return { joint, assessment, courses, periodMilliseconds: Math.max(1000, ...run.periods.values()) };
    }
    const key = `${id}/${record.removed(id)?.seq ?? 'here'}`;
    const kept = closed.get(key) ?? errand({ kind: 'judge', joint: id });
    closed.set(key, kept);
    kept.catch(() => closed.delete(key));
    return kept;
  };

  /** As they are in the record: what is being recorded is shown once it is. Read again only when there is more. */
  let procedures: { readonly seq: number; readonly kept: readonly KeptRevision[] } = { seq: 0, kept: [] };
  const keptProcedures = (): readonly KeptRevision[] => {
    const { seq } = record.head(proceduresChain);
    if (seq !== procedures.seq) procedures = { seq, kept: keptRevisions(record.entries(proceduresChain)) };
    return procedures.kept;
  };

  const joint = async (id: string): Promise<JointState | undefined> => {
    if (!known(id)) return undefined;
    const { joint, assessment, courses, periodMilliseconds } = await judged(id);
    const { hash, seq, position } = record.head(id);
    const outlook = pipeline.outlook(id);
    const binding = bindingOf(joint, keptProcedures());
    return {
      joint,
      assessment,
      courses,
      ...(outlook === undefined ? {} : { outlook }),
      ...(binding === undefined ? {} : { binding }),
      repairs: repairsOf(record, id),
      ...removedOf(record, id),
      position: pipeline.run(id)?.position ?? position,
      periodMilliseconds,
      headHash: hash,
      entries: seq,
      wiring: assessment.phase === 'closed' ? [] : wiringOf(joint, pipeline),
    };
  };

  return {
    station: (): StationView => {
      const because = pipeline.notRecordingBecause();
      const stepped = pipeline.clockStep();
      const driven = signals?.();
      return {
        now: pipeline.now(),
        recording: because === undefined,
        ...(because === undefined ? {} : { notRecordingBecause: because }),
        demonstration: demonstration !== undefined,
        ...(demonstration?.remark === undefined ? {} : { remark: demonstration.remark }),
        links: [...links].map(([port, link]) => ({
          ...linkView(port, link, linkEvents.get(port), pipeline),
          ...readView(connections.read(port)),
        })),
        attention: attentionOf(pipeline.runs()),
        ...(stepped === undefined ? {} : { clockStep: stepped }),
        ...(driven === undefined ? {} : { signals: driven }),
        ...(keeping === undefined ? {} : { keeping: keeping() }),
      };
    },
    joints: () => {
      const open = pipeline.runs().filter(({ assessment }) => assessment.phase !== 'closed');
      const closed = closedJoints();
      return {
        open: open.map(({ id, joint: { title }, assessment }) => ({ id, title, assessment })),
        ...(closed === undefined ? {} : { closed }),
      };
    },
    isKnown: known,
    joint,
    async history(id, { from, to, points }) {
      return withReadings(record, id, async () => {
        const { joint } = await judged(id);
        const span = { from: from ?? openedAt(record, id), to: to ?? pipeline.now() };
        const probes = joint.probes.map((probe) => probe.id);
        return errand({ kind: 'history', joint: id, probes, ...span, points });
      });
    },
    timeline: async (id) =>
      [...[...record.entries(id)].flatMap((entry) => eventOf(entry)), ...record.removals(id).map(removalEvent)].sort(
        (a, b) => a.seq - b.seq,
      ),
    alarms: async (id) =>
      [...record.conclusions(id)].flatMap(({ at, body }) => {
        const said = body as Conclusion;
        return said.kind === 'alarm' ? [{ at, change: said.change, alarm: said.alarm }] : [];
      }),
    pdf: (id, zone) => errand({ kind: 'pdf', joint: id, zone }),
    handOver: (id, zone) => withReadings(record, id, () => errand({ kind: 'hand-over', joint: id, zone })),
    paper: (id, paper, address) => errand({ kind: 'paper', joint: id, paper, address }),
    csv: (id, of, zone) => withReadings(record, id, () => errand({ kind: 'csv', of, joint: id, zone })),
    package: (id, zone) => errand({ kind: 'package', joint: id, zone }),
    head: (id) => {
      const { seq, fingerprint, ...head } = record.signedHead(id);
      return {
        seq,
        text: signedHeadText({ seq, ...head }),
        ...(fingerprint === undefined ? {} : { fingerprint }),
      };
    },
    headFile: (id) => {
      const head = record.signedHead(id);
      return { name: headFileName(head), text: headFileText(head) };
    },
    stampRequest: (id) => {
      const made = requestFor(record, id);
      return made && { name: `${id}-${made.head.seq}.tsq`, bytes: made.request };
    },
    procedures: keptProcedures,
    document: (sha256) => record.document(sha256),
  };
}

const removedOf = (record: RecordReader, id: string): Pick<JointState, 'readingsRemoved'> => {
  const removed = record.removed(id);
  return removed === undefined ? {} : { readingsRemoved: removed };
};

const removalEvent = (removal: RemovalEntry): TimelineEvent => ({
  ...{ at: removal.at, seq: removal.seq, ...signedOf(removal) },
  ...{ kind: removal.kind, body: removal },
});

/** Of a job that is kept from its logs by their time, and with who did it there. */
function eventOf(entry: CommittedEntry): TimelineEvent[] {
  const input = inputOf(entry);
  if (input === undefined || input.type === 'scan') return [];
  const { seq, kind, body } = entry;
  if (!isImported(body)) return [{ at: entry.at, seq, ...signedOf(entry), kind, body }];
  const kept = { at: entry.at, ...signedOf(entry) };
  return input.type === 'act'
    ? [{ at: input.at, seq, ...signedOf(input), kind: input.act.kind, body: input.act, kept }]
    : [{ at: input.at, seq, ...signedOf(entry), kind, body, kept }];
}

function openedAt(record: RecordReader, id: string): Instant {
  for (const input of record.inputs(id)) return arrival(input);
  return 0 as Instant;
}

function wiringOf(joint: Joint, pipeline: Pipeline): readonly string[] {
  const boards = [...pipeline.intake.boards.byId.values()];
  return boards.flatMap(({ hello }) => wiringProblems(hello, joint.probes).map(({ message }) => message));
}

function linkView(
  port: string,
  link: Link,
  event: (WireEvent & { type: 'link' }) | undefined,
  pipeline: Pipeline,
): LinkView {
  const { linesGood, linesBad } = link.counts();
  const boards = pipeline.intake.boards;
  const board = [...boards.byId.values()].find((each) => each.port === port)?.hello;
  return {
    port,
    state: event?.state ?? 'opening',
    ...(board === undefined ? {} : { board: board.board, simulated: board.simulated }),
    verified: boards.identities.get(port)?.verified === true && board?.simulated !== true,
    ...(event === undefined ? {} : { cause: withoutSystemWords(event.cause) }),
    ...(event?.advice === undefined ? {} : { advice: event.advice }),
    linesGood,
    linesBad,
  };
}

/** What stands in parentheses behind a cause is for the page Links. */
const withoutSystemWords = (cause: string): string => cause.replace(/ \([^()]*\)$/, '');

/** How an instrument that was connected is read, and what went wrong with it. */
const readView = (read: ReturnType<Connections['read']>): Partial<LinkView> => {
  if (read === undefined) return {};
  const { errors, last } = read.counts;
  return {
    way: wayText(read.connection.kind),
    ...(errors.length === 0 ? {} : { errors }),
    ...(last === undefined ? {} : { lastError: last }),
  };
};
