/** What a report says of alarms: those that came and went, what people did about them, and what a rule held back. */
import { expect, it } from 'vitest';
import type { Alarm } from '../../../server/judgement/assessment.ts';
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import { type PageModel, sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { fixtureStart, reportFacts } from '../../support/report-fixture.ts';

const facts = reportFacts();
const section = (of: PageModel, heading: string): string => {
  const found = of.sections.find((each) => each.heading === heading);
  return found === undefined ? '' : sectionText(found);
};
const minute = (count: number): Instant => instant(fixtureStart + count * 60_000);

it('keeps alarms that came and went, with who took note of them', () => {
  const alarm = { key: 'a', kind: 'probe fault', probe: 'Z3', state: 'active', since: minute(10) } as const;
  const text = section(
    pages({
      ...facts,
      recordedConclusions: [
        { at: minute(10), conclusion: { kind: 'alarm', change: 'changed', alarm } },
        {
          at: minute(12),
          conclusion: {
            kind: 'alarm',
            change: 'changed',
            alarm: {
              ...alarm,
              state: 'active acknowledged',
              acknowledgedBy: 'Дмитрий Орлов',
              acknowledgedAt: minute(12),
            },
          },
        },
        { at: minute(15), conclusion: { kind: 'alarm', change: 'gone', alarm } },
      ],
    }),
    'Findings and alarms',
  );
  expect(text).toContain(
    '07:10:00 | low | Probe fault at Z3: its place is not judged | by Дмитрий Орлов, 07:12:00 | 07:15:00',
  );
});

it('keeps who put an alarm aside, why and how long, though that is over, and counts what a rule held back', () => {
  const alarm = { key: 'a', kind: 'probe fault', probe: 'Z3', state: 'active', since: minute(10) } as const;
  const shelved = { key: 'a', kind: 'probe fault', by: 'Runa Teld', reason: 'new wire is fetched' } as const;
  const muted = { key: 'b', kind: 'below minimum', state: 'active', since: minute(1), suppressed: 'first heating' };
  const changes = [
    muted,
    { ...alarm, announcedAt: minute(10) },
    { ...alarm, announcedAt: minute(10), shelved: { ...shelved, at: minute(11), until: minute(31) } },
    { ...alarm, announcedAt: minute(31) },
  ] as const;
  const text = section(
    pages({
      ...facts,
      recordedConclusions: changes.map((each, index) => ({
        at: minute(10 + index),
        conclusion: { kind: 'alarm', change: 'changed', alarm: each as Alarm },
      })),
    }),
    'Findings and alarms',
  );
  expect(text).toContain('put aside by Runa Teld from 07:11:00 to 07:31:00 at the latest: new wire is fetched');
  expect(text).toContain('1 not announced while the part is heated for the first time');
  expect(text).not.toContain('Below the minimum preheat');
});
