/** What the station knows of a welder goes into the start of a pass, whoever enters it and whatever is sent. */
import { expect, test } from 'vitest';
import { keepQualification } from '../../../server/people/qualifications.ts';
import { monthsLater } from '../../../server/weld/day.ts';
import { shop } from '../../support/guarded-shop.ts';

const qualification = {
  standard: 'ISO 9606-1',
  certificate: 'VK-118',
  range: 'BW, t 3 mm and more',
  processes: ['135' as const],
  validUntil: '2099-12-31',
};
const start = (pass: string, welder: string) => ({ kind: 'pass start', pass, passKind: 'fill', welder });

test('the start of a pass holds the qualifications of the welder it names, and none that were sent', async () => {
  const { browser, add, newest, signOn, http } = await shop();
  const odd = await add('Odd Varen', 'welder');
  await add('Runa Teld', 'coordinator');
  keepQualification(signOn.book, odd, undefined, qualification, 'test');
  const page = browser();
  await page.signOn('Runa Teld');
  expect((await page.act(start('1', 'odd varen'))).status).toBe(201);
  expect(newest()?.body).toMatchObject({ pass: '1', qualifications: [qualification] });
  const claimed = { ...start('2', 'Somebody Else'), qualifications: [qualification] };
  expect((await page.act(claimed)).status).toBe(201);
  expect(newest()?.body).toMatchObject({ pass: '2', qualifications: [] });
  const { findings } = http.bench.pipeline.run('one')!.assessment;
  expect(findings.filter(({ kind }) => kind === 'welder not qualified')).toMatchObject([
    { pass: '2', who: 'Somebody Else', severity: 'remark' },
  ]);
});

test('where the station knows nobody a start holds none, so that nothing is said of it', async () => {
  const { browser, newest } = await shop();
  const claimed = { ...start('1', 'Odd Varen'), qualifications: [qualification] };
  expect((await browser().act(claimed, { name: 'Odd Varen', role: 'welder' })).status).toBe(201);
  expect(newest()?.body).not.toHaveProperty('qualifications');
});

test('so many months later is the same day, or the last of the month', () => {
  const cases = [
    ['2026-01-12', 6, '2026-07-12'],
    ['2026-08-31', 6, '2027-02-28'],
    ['2027-08-31', 6, '2028-02-29'],
    ['2026-12-31', 12, '2027-12-31'],
  ] as const;
  for (const [day, months, later] of cases) expect([day, monthsLater(day, months)]).toEqual([day, later]);
});
