/** The record is looked at after the start and each day, copied where asked, and what is wrong is told: all on a clock that is moved. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { keep, type RecordCheck } from '../../../server/errands/keeping.ts';
import { type CardsToKeep, runPast } from '../../../server/errands/past.ts';
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import { addCardTable, writeCards } from '../../../server/record/cards.ts';
import { openRecordReadOnly } from '../../../server/record/read.ts';
import { createKeeping, type KeepingOptions, untilNext } from '../../../server/station/keeping.ts';
import { createMovedClock } from '../../support/moved-clock.ts';
import { closedRecord, tamper } from '../../support/tampered-record.ts';

const settled = async (): Promise<void> => {
  for (let turn = 0; turn < 10; turn += 1) await Promise.resolve();
};
const program = { rules: 'rules 1' };
const kept = (folder: string, options: Partial<KeepingOptions> = {}) => {
  const clock = createMovedClock();
  const told: string[] = [];
  const anew: string[] = [];
  let checks = 0;
  const made = createKeeping({
    ...{ clock, dailyAtMinutes: 180, tell: (line: string) => told.push(line), ...options },
    drawAnew: (joints) => anew.push(...joints),
    check: async () => {
      checks += 1;
      return keep({ kind: 'check record' }, folder, program) as RecordCheck;
    },
    copy: async (to, at) => keep({ kind: 'copy record', to, at }, folder, program) as string,
  });
  const pass = async (milliseconds: number): Promise<void> => {
    clock.move(milliseconds);
    await settled();
  };
  const untilDaily = (): number => untilNext(clock.wall(), 180);
  return { clock, told, anew, made, pass, untilDaily, checks: () => checks };
};

test('soon after the start, then once a day; a copy each day under its own name', async () => {
  const folder = closedRecord();
  const home = dirname(folder);
  const bed = kept(folder, { copiesIn: home });
  await bed.pass(29_000);
  expect(bed.made.view()).toEqual({});
  await bed.pass(1000);
  expect(bed.made.view()).toEqual({ check: { at: bed.clock.wall(), entries: expect.any(Number) } });
  for (const day of [2, 3]) {
    await bed.pass(bed.untilDaily());
    expect(bed.checks()).toBe(day);
    const { copy } = bed.made.view();
    expect(existsSync(join(copy!.folder!, 'record.sqlite'))).toBe(true);
  }
  bed.made.close();
  await bed.pass(3 * 86_400_000);
  expect(bed.checks()).toBe(3);
});

test('what is not as it was written is told with what to do, and so is a place for copies that is gone', async () => {
  const folder = closedRecord();
  const bed = kept(folder, { copiesIn: join(dirname(folder), 'stick') });
  tamper(folder, (raw) => raw.exec("UPDATE entries SET kind = 'heat' WHERE chain = 'joint-1' AND seq = 5"));
  await bed.pass(30_000);
  expect(bed.made.view().check?.fault).toBe('entry 5 of joint-1 is not as it was written');
  expect(bed.told[0]).toContain('RECORD NOT INTACT');
  expect(bed.told[1]).toContain('Recording goes on');
  await bed.pass(bed.untilDaily());
  expect(bed.made.view().copy?.failed).toContain('plug it in');
  expect(bed.told.at(-1)).toContain('NO COPY');
  bed.made.close();
});

test('a search list that says something else than the chain is told, never as an alteration, and made again', async () => {
  const folder = closedRecord();
  const reader = openRecordReadOnly(folder);
  const { made, cards } = runPast({ kind: 'cards to keep' }, reader, program) as CardsToKeep;
  reader.close();
  tamper(folder, (raw) => {
    addCardTable(raw);
    writeCards(raw, made, cards);
    const changed = new TextEncoder().encode(
      new TextDecoder().decode(cards[1]!.bytes).replace('"verdict":"cannot-be-judged"', '"verdict":"complies"'),
    );
    writeCards(raw, made, [{ ...cards[1]!, bytes: changed }]);
  });
  const bed = kept(folder);
  await bed.pass(30_000);
  const { check } = bed.made.view();
  expect([check?.fault, check?.cards]).toEqual([undefined, ['joint-2']]);
  expect(bed.anew).toEqual(['joint-2']);
  expect(bed.told).toEqual([
    expect.stringMatching(/^The search list was changed or is out of date for joint-2\. What was recorded stands/),
  ]);
  bed.made.close();
});

test('the next such time of day is never now and at most a day and an hour away', () => {
  for (let hour = 0; hour < 48; hour += 1) {
    const now = instant(Date.UTC(2026, 2, 28, hour)) as Instant;
    const wait = untilNext(now, 180);
    expect(wait).toBeGreaterThan(0);
    expect(wait).toBeLessThanOrEqual(25 * 3_600_000);
    expect(new Date(now + wait).getMinutes()).toBe(0);
    expect(new Date(now + wait).getHours()).toBe(3);
  }
});
