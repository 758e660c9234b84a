/** The two single papers of a joint: the working to be signed, and the card to hang on the part. Read as text. */
import { expect, test } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import { explain } from '../../../server/metallurgy/explanation.ts';
import type { PageModel } from '../../../server/report/page-model.ts';
import type { PaperFacts } from '../../../server/report/papers/paper-facts.ts';
import { setUpCard } from '../../../server/report/papers/set-up-card.ts';
import { workingPage } from '../../../server/report/papers/working-page.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

const facts = (changes: Parameters<typeof fixtureJoint>[0] = {}): PaperFacts => {
  const joint = fixtureJoint(changes);
  return {
    joint,
    explanation: explain(joint, []),
    standsIn: 'Record ring-seam-4, entry 12, head 0123456789abcdef',
    datedAt: 1_700_000_000_000 as Instant,
    address: 'http://shop.example/#/joint/ring-seam-4',
  };
};
const textOf = (model: PageModel): string => JSON.stringify(model);

test('the working lists every method with its standing, every source, and who signs', () => {
  const made = facts();
  const text = textOf(workingPage(made));
  const { requirement } = made.explanation;
  for (const { title } of requirement.methods) expect(text).toContain(title);
  for (const { source, applicable } of requirement.methods) if (applicable !== 'no') expect(text).toContain(source);
  for (const { message } of requirement.warnings) expect(text).toContain(JSON.stringify(message).slice(1, -1));
  expect(text).toContain('Coordinator');
  expect(text).toContain(cautions[0]);
  expect(text).not.toMatch(/undefined|NaN/);
});

test('the card shows the limits large, every placed probe, whom to call, all cautions and the code to the page', () => {
  const made = facts({ contact: 'Foreman, extension 12' });
  const text = textOf(setUpCard(made));
  const limits = setUpCard(made)
    .sections.flatMap(({ blocks }) => blocks)
    .find(({ kind }) => kind === 'limits');
  expect(JSON.stringify(limits)).toContain('Minimum preheat');
  for (const { id, place } of made.joint.probes) if (place !== undefined) expect(text).toContain(id);
  for (const words of ['Foreman, extension 12', 'http://shop.example/#/joint/ring-seam-4', ...cautions])
    expect(text).toContain(words);
  expect(text).not.toMatch(/undefined|NaN/);
});
