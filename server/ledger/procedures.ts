/** The store of procedures as its chain tells it: each revision by the SHA-256 of its canonical bytes. */

import type { Joint } from '../weld/joint.ts';
import type { KeptRevision, ProcedureAct } from '../weld/procedure-act.ts';
import { carriedRevision, type ProcedureRevision } from '../weld/procedure-revision.ts';
import { encodeCanonical } from './canonical.ts';
import { sha256Hex } from './hash.ts';
import type { CommittedEntry } from './item.ts';

export const revisionHash = (revision: ProcedureRevision): string => sha256Hex(encodeCanonical(revision));

/** What stands against a joint's word that it is bound: its values are not those of the revision. */
export function bindingFault(joint: Joint): string | undefined {
  if (joint.boundRevision === undefined) return undefined;
  const carried = carriedRevision(joint);
  if (carried === undefined) return 'it is bound to a procedure and carries none';
  return revisionHash(carried) === joint.boundRevision.sha256
    ? undefined
    : 'the values of its procedure are not those of the revision that it is bound to';
}

/** The newest last. A revision that is withdrawn stays, marked. */
export function withEntry(
  kept: readonly KeptRevision[],
  entry: Pick<CommittedEntry, 'at' | 'who' | 'role'> & { readonly body: unknown },
): readonly KeptRevision[] {
  const { at, who } = entry;
  const role = entry.role === undefined ? {} : { role: entry.role };
  const act = entry.body as ProcedureAct;
  switch (act.kind) {
    case 'procedure': {
      const { sha256, revision } = act;
      return [
        ...kept,
        { sha256, revision, at, who, ...role, ...(act.reason === undefined ? {} : { reason: act.reason }) },
      ];
    }
    case 'withdraw procedure':
      return kept.map((each) =>
        each.sha256 === act.sha256 ? { ...each, withdrawn: { at, who, ...role, reason: act.reason } } : each,
      );
    default:
      return kept;
  }
}

export const keptRevisions = (entries: Iterable<CommittedEntry>): readonly KeptRevision[] =>
  [...entries].reduce<readonly KeptRevision[]>(withEntry, []);
