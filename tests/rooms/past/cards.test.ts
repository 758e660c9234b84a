/** What is drawn out of a joint's entries says what the judge said of it, and is found again whatever became of the index. */
import { describe, expect, test } from 'vitest';
import { runPast } from '../../../server/errands/past.ts';
import { pastCards } from '../../../server/errands/past-cards.ts';
import { cardOf } from '../../../server/past/card.ts';
import type { Asked } from '../../../server/past/search.ts';
import { openRecordReadOnly } from '../../../server/record/read.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { bench, note, opened, shortJob, station } from '../../support/record.ts';
import { recordedScenario } from '../../support/recorded-scenario.ts';
import { everyField } from '../web/every-field.ts';

const program = { rules: 'rules 1' };

describe('a card', () => {
  const names = ['whole-job', 'corrected-struck', 'intermittent'];
  test.each(names)('of %s says what the judge says', (name) => {
    const { items, assessment } = recordedScenario(name, 'seam');
    const made = bench();
    made.store.commit(items);
    const card = cardOf('seam', made.store.entries('seam'))!;
    expect(card.verdict).toBe(assessment.verdict);
    expect(card.open).toBe(assessment.phase !== 'closed');
    expect(card.findings.map(({ kind, pass, probe }) => `${kind}/${pass}/${probe}`).sort()).toEqual(
      assessment.findings.map(({ kind, pass, probe }) => `${kind}/${pass}/${probe}`).sort(),
    );
    expect(card.passes).toEqual(
      assessment.passes
        .map(({ pass, welder, startedAt }) => ({ pass, welder, startedAt }))
        .toSorted((a, b) => a.startedAt - b.startedAt),
    );
    expect(card.firstArcAt).toBe(assessment.passes[0]?.startedAt);
  });

  test('of entries that a newer program wrote says how far it could be read', () => {
    const made = bench();
    const unknown = { ...note(2, 'x'), kind: 'turned over', body: { kind: 'turned over' } };
    made.store.commit([opened(1), unknown, note(3, 'y')]);
    const card = cardOf('joint-1', made.store.entries('joint-1'))!;
    expect(card.title).toBe('Plain joint');
    expect(card.notRead).toContain('turned over');
  });
});

describe('the index', () => {
  const asked: Asked = {};
  const joints = (reader: Parameters<typeof runPast>[1], rules = program.rules) =>
    runPast({ kind: 'found as CSV', asked, zone: 'UTC' }, reader, { rules });

  test('made anew, read from the record, of an older program or half of it lost: the same is found', () => {
    const made = bench();
    made.store.commit(shortJob('joint-1'));
    made.store.commit(recordedScenario('whole-job', 'joint-2').items);
    made.store.commit([opened(5000, 'joint-3')]);
    const anew = joints(made.store);
    const { made: by, cards } = runPast({ kind: 'cards to keep' }, made.store, program) as {
      made: string;
      cards: Parameters<typeof made.store.keepCards>[1];
    };
    expect(cards.map(({ chain }) => chain).sort(), 'an open joint is not kept').toEqual(['joint-1', 'joint-2']);
    made.store.keepCards(by, cards);
    const readers = [1, 2, 3].map(() => openRecordReadOnly(made.folder));
    expect(readers[0]!.cards(by)).toHaveLength(2);
    expect(joints(readers[0]!)).toEqual(anew);
    expect(pastCards(readers[0]!, program).toKeep(9), 'nothing is drawn that is kept').toEqual([]);
    expect(joints(readers[1]!, 'rules 2'), 'a newer program draws anew').toEqual(anew);
    expect(pastCards(readers[1]!, { rules: 'rules 2' }).toKeep(9)).toHaveLength(2);
    made.store.keepCards(by, [{ ...cards[0]!, position: cards[0]!.position - 1 }]);
    expect(joints(readers[2]!), 'one of an earlier state is not believed').toEqual(anew);
    for (const reader of readers) reader.close();
  });

  test('follows the record: what was committed is found with the next question', () => {
    const made = bench();
    const found = (words: string) =>
      runPast({ kind: 'find', asked: { words }, from: 0, count: 9 }, made.store, program);
    expect(found('plain')).toEqual({ found: 0, searched: 0, joints: [] });
    made.store.commit([opened(1)]);
    expect(found('plain')).toMatchObject({ found: 1, searched: 1, joints: [{ id: 'joint-1', open: true }] });
    made.store.commit([{ ...note(2, 'cold wind'), who: 'Åse Øvergård' }]);
    expect(found('ase')).toMatchObject({ found: 1, joints: [{ places: [{ field: 'person', text: 'Åse Øvergård' }] }] });
    const revised: Joint = { ...everyField, id: 'joint-1', title: 'Revised', repairOf: undefined as never };
    made.store.commit([
      station(3, { kind: 'clock', steppedMilliseconds: 5 }),
      { ...note(4, ''), kind: 'revise', body: { kind: 'revise', joint: revised, reason: 'a slip' } },
    ]);
    expect(found('revised')).toMatchObject({ found: 1 });
    expect(found('plain')).toMatchObject({ found: 0, searched: 1 });
  });
});
