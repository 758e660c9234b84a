/** Where a job of the shift is done: its joint, its board on a cable of its own, the revisions of its procedure. */
import { readFileSync } from 'node:fs';
import type { Board } from '../../../firmware-protocol/emulator/board.ts';
import { revisionHash } from '../../ledger/procedures.ts';
import type { Milliseconds } from '../../measure/quantity.ts';
import type { Joint } from '../../weld/joint.ts';
import { type ProcedureRevision, procedureRevisionSchema, reboundTo } from '../../weld/procedure-revision.ts';
import { createInProcessPort, type InProcessPort } from '../../wire/in-process-port.ts';
import type { OpenPort } from '../../wire/port.ts';
import { readDemonstrationJoint } from '../demonstration.ts';
import { boardOf } from '../joint-board.ts';
import type { Job } from './job.ts';

export interface Bay {
  readonly job: Job;
  /** Bound to the first revision. */
  readonly joint: Joint;
  readonly revisions: readonly { readonly revision: ProcedureRevision; readonly reason?: string }[];
  readonly board: Board;
  readonly path: string;
  readonly cable: InProcessPort;
}

export const baysOf = (jobs: readonly Job[], folder: URL, period: Milliseconds): readonly Bay[] =>
  jobs.map((job, index) => {
    const plain = readDemonstrationJoint(new URL(job.file, folder));
    const revisions = job.procedures.map(({ file, ...why }) => ({
      revision: readRevision(new URL(`procedures/${file}`, folder)),
      ...why,
    }));
    return {
      job,
      joint: boundTo(plain, revisions[0]!.revision),
      revisions,
      board: boardOf(plain, period, 31 + index),
      path: `cable of ${plain.probes[0]!.board}`,
      cable: createInProcessPort(),
    };
  });

export const boundTo = (joint: Joint, revision: ProcedureRevision): Joint =>
  reboundTo(joint, revision, revisionHash(revision));

/** Opens each bay's own cable, by its path. */
export const openBays =
  (bays: readonly Bay[]): OpenPort =>
  (path, handlers) => {
    const bay = bays.find((each) => each.path === path);
    if (bay === undefined) throw new Error(`no bay has the cable ${path}`);
    return bay.cable.openPort(path, handlers);
  };

const readRevision = (file: URL): ProcedureRevision =>
  procedureRevisionSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
