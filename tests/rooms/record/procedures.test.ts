/** Whoever verifies a record is told of a procedure, or of a joint bound to one, that is not what it says it is. */
import { expect, test } from 'vitest';
import { verifyText } from '../../../server/commands/verify-text.ts';
import { type EntryItem, type Item, proceduresChain } from '../../../server/ledger/item.ts';
import { revisionHash } from '../../../server/ledger/procedures.ts';
import { inspectRecord } from '../../../server/record/inspection.ts';
import type { ProcedureAct } from '../../../server/weld/procedure-act.ts';
import { asBound, type ProcedureRevision } from '../../../server/weld/procedure-revision.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { at, bench, station } from '../../support/record.ts';

const revision: ProcedureRevision = {
  format: 'preheat procedure 1',
  procedure: { id: 'P-12', revision: 'A', preheatMinimumCelsius: 112.5, decisionRule: 'simple acceptance' },
  postHeating: { celsius: 250, hours: 2 },
};
const sha256 = revisionHash(revision);
const kept = (body: ProcedureAct): EntryItem => ({
  type: 'entry',
  chain: proceduresChain,
  at: at(0),
  who: 'B. Holm',
  role: 'coordinator',
  class: 'input',
  kind: body.kind,
  body,
});
const openedWith = (joint: ReturnType<typeof plainJoint>): EntryItem =>
  station(
    1,
    {
      kind: 'opened',
      joint,
      source: { kind: 'simulated', detail: 'test' },
      periodMilliseconds: 1000,
      openedBy: 'R. Ahlgren',
      rules: 'test',
      station: 'test',
    },
    joint.id,
  );
const bound = plainJoint({ id: 'beam', ...asBound(revision, sha256) });

const seen = (...items: Item[]) => {
  const { folder, store } = bench();
  store.commit(items);
  store.close();
  return inspectRecord(folder);
};

test('a record with procedures and a joint bound to one is intact, and says how many it keeps', () => {
  const inspected = seen(kept({ kind: 'procedure', revision, sha256 }), openedWith(bound));
  expect(inspected).toMatchObject({ ok: true, procedures: { revisions: 1, notKept: [] } });
  expect(verifyText('data', inspected)).toContain('\nrevisions of procedures kept: 1\n');
  expect(verifyText('data', inspected)).toMatch(/^Procedures: intact, 1 entry$/m);
});

test('a hash that is not that of the procedure beside it is named', () => {
  const inspected = seen(kept({ kind: 'procedure', revision, sha256: 'a'.repeat(64) }));
  expect(inspected).toMatchObject({
    ok: false,
    firstBad: { chain: 'Procedures', seq: 1, detail: expect.stringContaining('not that of its procedure') },
  });
});

test('a joint that carries other values than the revision that it names is named', () => {
  const altered = { ...bound, postHeating: { celsius: 250, hours: 1 } };
  expect(seen(kept({ kind: 'procedure', revision, sha256 }), openedWith(altered))).toMatchObject({
    ok: false,
    firstBad: { chain: 'beam', seq: 1, detail: expect.stringContaining('not those of the revision') },
  });
});

test('a joint bound to a revision that this record does not keep is sound, since it carries the values, and is told of', () => {
  const inspected = seen(openedWith(bound));
  expect(inspected).toMatchObject({ ok: true, procedures: { revisions: 0, notKept: [sha256] } });
  expect(verifyText('data', inspected)).toContain(`a joint is bound to a revision that is not kept here: ${sha256}`);
});

test('a record without procedures says nothing of them', () => {
  expect(verifyText('data', seen(openedWith(plainJoint({ id: 'beam' }))))).not.toMatch(/procedure/i);
});
