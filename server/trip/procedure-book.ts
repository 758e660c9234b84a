/**
 * The store of procedures on the trip: what may be recorded of them, and what a joint may be bound to, asked in the order of
 * arrival. It knows what was taken in, a moment before that is in the record.
 */
import { Refusal } from '../desk/refusal.ts';
import { type CommittedEntry, type EntryItem, type Item, proceduresChain } from '../ledger/item.ts';
import { bindingFault, keptRevisions, revisionHash, withEntry } from '../ledger/procedures.ts';
import { limits } from '../measure/limits.ts';
import type { Instant } from '../measure/quantity.ts';
import { comparedWithTest } from '../metallurgy/qualified-range.ts';
import type { Joint } from '../weld/joint.ts';
import type { Problem } from '../weld/problems.ts';
import { type ProcedureAct, type ProcedureAsked, revisionsOf } from '../weld/procedure-act.ts';
import type { ProcedureRevision } from '../weld/procedure-revision.ts';
import { type Signed, signedOf } from '../weld/signed.ts';

export interface ProcedureBook {
  /** Throws Refusal; then nothing was taken in. */
  ofAsked(asked: ProcedureAsked, signed: Signed, at: Instant): Item[];
  /** Throws Refusal where the joint says that it is bound and cannot be. `before`: the joint that it takes the place of. */
  mustBeBindable(joint: Joint, field: string, before?: Joint): void;
}

export function createProcedureBook(entries: Iterable<CommittedEntry>): ProcedureBook {
  let kept = keptRevisions(entries);

  const newRevision = (revision: ProcedureRevision, reason: string | undefined): Problem[] => {
    const { id, revision: name } = revision.procedure;
    const before = revisionsOf(kept, id);
    if (before.some((each) => each.revision.procedure.revision === name)) {
      const allowed = `a name that no revision of ${id} has yet; what is recorded is never changed`;
      return [{ field: 'revision.procedure.revision', found: name, allowed }];
    }
    if (kept.length >= limits.procedureRevisionsMaximum) {
      const allowed = `at most ${limits.procedureRevisionsMaximum} revisions in one record`;
      return [{ field: 'revision', found: `${kept.length} revisions`, allowed }];
    }
    if (reason !== undefined) return [];
    if (before.length > 0)
      return [
        { field: 'reason', found: 'nothing', allowed: `why ${id} gets another revision: it stands in the record` },
      ];
    const outside = comparedWithTest(revision).filter(({ standing }) => standing === 'outside');
    if (outside.length === 0) return [];
    const what = outside.map(({ variable, clause }) => `${variable} (${clause.name})`).join(', ');
    return [{ field: 'reason', found: 'nothing', allowed: `why it is recorded outside its qualified range: ${what}` }];
  };

  const withdrawal = (sha256: string): Problem[] => {
    const found = kept.find((each) => each.sha256 === sha256);
    if (found === undefined) return [{ field: 'sha256', found: sha256, allowed: 'a revision that this station keeps' }];
    return found.withdrawn === undefined
      ? []
      : [{ field: 'sha256', found: 'a withdrawn revision', allowed: 'one that is not withdrawn yet' }];
  };

  const actOf = (asked: ProcedureAsked): ProcedureAct => {
    if (asked.kind === 'withdraw procedure') {
      refuseFor(withdrawal(asked.sha256));
      return asked;
    }
    const { revision, reason } = asked;
    const sha256 = revisionHash(revision);
    refuseFor(newRevision(revision, reason));
    return { kind: 'procedure', revision, sha256, ...(reason === undefined ? {} : { reason }) };
  };

  return {
    ofAsked(asked, signed, at) {
      const body = actOf(asked);
      const entry: EntryItem = {
        type: 'entry',
        chain: proceduresChain,
        at,
        ...signedOf(signed),
        class: 'input',
        kind: body.kind,
        body,
      };
      kept = withEntry(kept, entry);
      return [entry];
    },
    mustBeBindable(joint, field, before) {
      const { boundRevision } = joint;
      if (boundRevision === undefined) return;
      const { sha256 } = boundRevision;
      const wrong = (found: string, allowed: string): never => {
        throw new Refusal([{ field, found, allowed }]);
      };
      const fault = bindingFault(joint);
      if (fault !== undefined)
        wrong(
          'values that are not those of the revision',
          'the values of the revision as it is recorded; for other values record a new revision, or bind none',
        );
      const found = kept.find((each) => each.sha256 === sha256);
      if (found === undefined)
        wrong(`revision ${sha256.slice(0, 16)}`, 'a revision that this station keeps; record it there first');
      // A joint that was bound in time stays bound.
      if (found?.withdrawn !== undefined && before?.boundRevision?.sha256 !== sha256)
        wrong('a withdrawn revision', `one that is not withdrawn; this one is: ${found.withdrawn.reason}`);
    },
  };
}

function refuseFor(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new Refusal(problems);
}
