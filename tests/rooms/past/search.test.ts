/** What a search finds, by every filter, whatever the letters; and what an address or a command line may ask. */
import { describe, expect, test } from 'vitest';
import { instant } from '../../../server/measure/quantity.ts';
import { askedNames, readAsked } from '../../../server/past/asked.ts';
import type { Card } from '../../../server/past/card.ts';
import { dayBegins, dayEnds, momentOf } from '../../../server/past/days.ts';
import { foldCase } from '../../../server/past/fold-case.ts';
import { type Asked, keep, search } from '../../../server/past/search.ts';
import { cardWith } from './card-with.ts';

const day = (text: string) => instant(Date.parse(`${text}T12:00:00Z`));

const cards: Card[] = [
  cardWith({
    chain: 'node-7',
    title: 'Knoten 7, Straße',
    openedAt: day('2026-03-02'),
    closedAt: day('2026-03-04'),
    people: [
      { name: 'Jörg Weiß', roles: ['welder'] },
      { name: 'Ada Lind', roles: ['inspector'] },
    ],
    words: { heat: ['H-77/31'], procedure: ['WPS-50-2 2'], part: ['plate-a', 'S690QL'] },
    verdict: 'does-not-comply',
    findings: [{ kind: 'soak not met', severity: 'nonconformity', pass: '1' }],
  }),
  cardWith({
    chain: 'post-12',
    title: 'ΟΔΟΣ post',
    openedAt: day('2026-04-01'),
    people: [{ name: 'Ada Lind', roles: ['welder'] }],
    source: { kind: 'simulated', detail: '' },
    repairOf: 'node-7',
  }),
];
const found = (asked: Asked): string[] => search(cards.map(keep), asked).cards.map(({ chain }) => chain);

describe('a search', () => {
  test.each<[string, Asked, string[]]>([
    ['nothing asked: all, newest first', {}, ['post-12', 'node-7']],
    ['a part of a word', { words: 'ode-' }, ['node-7']],
    ['sharp s and umlaut', { words: 'STRASSE jorg weiss' }, ['node-7']],
    ['final sigma', { words: 'οδοσ' }, ['post-12']],
    ['all words, in any field', { words: '77/31 s690 wps-50' }, ['node-7']],
    ['one word too many', { words: '77/31 nothing' }, []],
    ['no word across two texts', { words: 'plate-as690' }, []],
    ['in one field alone', { in: { heat: '77' } }, ['node-7']],
    ['not in another field', { in: { procedure: '77' } }, []],
    ['a person in any role', { in: { person: 'ada' } }, ['post-12', 'node-7']],
    ['a person in one role', { in: { person: 'ada' }, role: 'welder' }, ['post-12']],
    ['a role alone', { role: 'inspector' }, ['node-7']],
    ['a day within the work', { from: day('2026-03-03'), to: day('2026-03-03') }, ['node-7']],
    ['after it', { from: day('2026-03-05') }, ['post-12']],
    ['before it', { to: day('2026-03-01') }, []],
    ['open', { state: 'open' }, ['post-12']],
    ['closed', { state: 'closed' }, ['node-7']],
    ['verdict', { verdict: 'does-not-comply' }, ['node-7']],
    ['finding', { finding: 'soak not met' }, ['node-7']],
    ['source', { source: 'simulated' }, ['post-12']],
    ['repair of a joint', { repairOf: 'node-7' }, ['post-12']],
    ['any repair', { repairOf: true }, ['post-12']],
    ['repair of another', { repairOf: 'node' }, []],
  ])('%s', (_name, asked, ids) => {
    expect(found(asked)).toEqual(ids);
    expect(search(cards.map(keep), asked).searched).toBe(2);
  });

  test('folds what letters of one word can look like to one text', () => {
    for (const [a, b] of [
      ['Ångström', 'angstrom'],
      ['ﬁller', 'FILLER'],
      ['ＷＰＳ', 'wps'],
      ['ΣΊΣΥΦΟΣ', 'σισυφοσ'],
    ])
      expect(foldCase(a!)).toBe(foldCase(b!));
    expect(foldCase('T1')).not.toBe(foldCase('T2'));
  });
});

describe('a question', () => {
  test('is read from text, days by the zone, and empty fields are not asked', () => {
    expect(
      readAsked({ words: ' x ', heat: '', from: '2026-03-29', to: '2026-03-29', repairOf: 'any' }, 'Europe/Oslo'),
    ).toEqual({
      asked: {
        words: 'x',
        from: Date.parse('2026-03-28T23:00:00Z'),
        // The day on which clocks go forward is an hour shorter.
        to: Date.parse('2026-03-29T22:00:00Z') - 1,
        repairOf: true,
      },
    });
    expect(dayEnds('2026-03-29', 'Europe/Oslo') - dayBegins('2026-03-29', 'Europe/Oslo')).toBe(23 * 3_600_000 - 1);
  });

  test.each([
    [{ wods: 'x' }, 'wods', 'perhaps "words" is meant'],
    [{ from: '28.11.2026' }, 'from', 'a day, as 2026-11-25'],
    [{ from: '2026-02-30' }, 'from', 'a day, as 2026-11-25'],
    [{ from: '2026-03-02', to: '2026-03-01' }, 'to', '2026-03-02 or later'],
    [{ verdict: 'good' }, 'verdict', '"does-not-comply"'],
    [{ finding: 'soak' }, 'finding', '"soak not met"'],
  ])('%j is refused with what is allowed', (given, field, allowed) => {
    const read = readAsked(given, 'UTC');
    if (!('problems' in read)) throw new Error('it was taken');
    expect(read.problems[0]!.field).toBe(field);
    expect(read.problems[0]!.allowed).toContain(allowed);
  });

  test('can name each field of the words', () => {
    expect(askedNames).toEqual(expect.arrayContaining(['joint', 'part', 'heat', 'procedure', 'person', 'other']));
  });
});

test('a moment that a person names is the newest such one, by the clock of the zone', () => {
  const last = instant(Date.UTC(2026, 9, 25, 12));
  const text = (said: string): string | undefined => {
    const at = momentOf(said, last, 'Europe/Oslo');
    return at === undefined ? undefined : new Date(at).toISOString().slice(0, 19);
  };
  expect(text('13:00')).toBe('2026-10-25T12:00:00');
  expect(text('13:00:01'), 'later than the newest: the day before, an hour of summer').toBe('2026-10-24T11:00:01');
  expect(text(' 2026-07-01 9:05 ')).toBe('2026-07-01T07:05:00');
  for (const wrong of ['noon', '24:00', '12:60', '2026-02-30 12:00', '13', ''])
    expect(text(wrong), wrong).toBeUndefined();
});
