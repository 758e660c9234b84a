/** A procedure value by value: checks and points in words, each under its own id. */
import { expect, test } from 'vitest';
import type { Check } from '../../../server/weld/checks.ts';
import type { ProcedureRevision } from '../../../server/weld/procedure-revision.ts';
import { changedLines, statedLines } from '../../../server/wording/procedure.ts';

const dry: Check = { id: 'clean', text: 'Joint clean and dry', weight: 'blocks' };
const qualified: Check = { id: 'welder', text: 'Welder qualified', weight: 'warns', role: 'coordinator' };
const revision = (checks: readonly Check[]): ProcedureRevision => ({
  format: 'preheat procedure 1',
  procedure: {
    id: 'P-1',
    revision: 'A',
    decisionRule: 'simple acceptance',
    checks: [...checks],
    points: [{ id: 'H1', text: 'Release for welding', kind: 'hold', before: 'first pass', role: 'inspector' }],
  },
});

test('checks and points stand in words', () => {
  const lines = Object.fromEntries(
    statedLines(revision([dry, qualified]), 'metric').map(({ name, text }) => [name, text]),
  );
  expect(lines).toMatchObject({
    'Check clean': 'Joint clean and dry; blocks',
    'Check welder': 'Welder qualified; warns, answered by the coordinator',
    'Point H1': 'Release for welding: Hold point H1 before the first pass, released by the inspector',
  });
});

test('a check that is put in before others changes none of them', () => {
  const changed = changedLines(revision([qualified]), revision([dry, qualified]), 'metric');
  expect(changed.map(({ name, before }) => [name, before])).toEqual([['Check clean', undefined]]);
});
