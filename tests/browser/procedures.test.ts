/** A procedure is recorded, bound to a new joint, revised, and the joint changed over: each by name, each shown value by value. */
import { describe, expect, test } from 'vitest';
import type { JointState } from '../../server/screen/contract.ts';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import type { KeptRevision } from '../../server/weld/procedure-act.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const joint = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));

describe.skipIf(noBrowser)('the store of procedures', () => {
  const browser = useBrowser();

  test('a procedure is recorded, bound, revised, and the joint is changed over', {
    timeout: testPatience,
  }, async () => {
    const { address, play } = await openWorkshop(joint);
    const page = await tablet(browser);
    const asked = async <T>(path: string): Promise<T> => (await (await page.request.get(address + path)).json()) as T;
    const kept = () => asked<KeptRevision[]>('api/procedures');
    await page.goto(`${address}#/`);
    await sayWho(page, 'Runa Teld', 'coordinator');

    // From nothing: the empty page says what to do.
    await page.getByRole('link', { name: 'Procedures' }).click();
    await page.getByRole('heading', { name: 'No procedure yet' }).waitFor();
    await look(page, 'procedures-none');
    await page.getByRole('link', { name: 'Record the first procedure' }).click();
    await page.getByLabel('Procedure', { exact: true }).fill('P-12');
    await page.getByLabel('Revision', { exact: true }).fill('A');
    await page.getByLabel('What it is for').fill('butt welds of thick plate');
    await page.getByLabel('Minimum preheat').fill('140');
    await page.getByLabel('Maximum interpass').fill('250');
    await page.getByText('post-heating, rates, slow cooling').click();
    await page.getByLabel('Post-heating at').fill('250');
    await page.getByLabel('Post-heating for').fill('2');

    // The test piece: what lies outside is told as one types, and wants a reason.
    await page.getByText('the test piece, and how far production may depart').click();
    await page.getByLabel('A qualification record stands behind this procedure').check();
    await page.getByLabel('Number of the record').fill('Q-7');
    await page.getByLabel('Test piece, lowest preheat').fill('200');
    await page.getByText('OUTSIDE: 140 °C, qualified from 145 °C (test piece 200 °C)').waitFor();
    await page.getByText('ASME IX QW-406.1, second-hand').waitFor();
    await page.getByRole('button', { name: 'Record in my name' }).click();
    await page.getByText('Say why it is recorded outside its qualified range').waitFor();
    expect(await kept()).toEqual([]);
    await page.getByLabel('Test piece, lowest preheat').fill('190');
    await page.getByText('Inside: 140 °C, qualified from 135 °C (test piece 190 °C)').waitFor();
    await look(page, 'procedures-new');
    await page.getByRole('button', { name: 'Record in my name' }).click();
    await page.getByRole('heading', { name: 'Procedure P-12' }).waitFor();
    await page.getByRole('heading', { name: 'Revision A holds' }).waitFor();
    await look(page, 'procedures-one');

    // A new joint is bound to it: the values fill in, and cannot be changed there.
    await page.getByRole('link', { name: 'New joint' }).click();
    const { procedure: _, ...unbound } = joint;
    await page.locator('input[type=file]').setInputFiles({
      name: 'joint.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(unbound)),
    });
    await page.getByText('The form was filled anew.').waitFor();
    await page.getByText('One that is recorded here').click();
    await page
      .getByLabel('Procedure and revision')
      .selectOption({ label: 'P-12, revision A: butt welds of thick plate' });
    await page.getByText('These values are those of P-12, revision A as it is recorded').waitFor();
    expect(await page.getByLabel('Minimum preheat').inputValue()).toBe('140');
    expect(await page.getByLabel('Minimum preheat').isDisabled()).toBe(true);
    expect(await page.getByLabel('Post-heating at').isDisabled()).toBe(true);
    await look(page, 'procedures-binding');
    const entered = page.getByRole('button', { name: 'Enter the joint' }).click();
    await play(minutes(1));
    await entered;
    await page.getByRole('heading', { name: joint.title }).waitFor();
    const [first] = await kept();
    const before = await asked<JointState>(`api/joints/${joint.id}`);
    expect(before.joint.boundRevision).toEqual({ sha256: first!.sha256, beside: ['postHeating'] });
    expect(before.joint.procedure).toEqual(first!.revision.procedure);

    // Another revision begins with the one before it, and shows what it changes.
    await page.getByRole('link', { name: 'Procedures' }).click();
    await page.getByRole('link', { name: 'P-12' }).click();
    await page.getByRole('link', { name: 'New revision' }).click();
    await page.getByText('Begun from revision A.').waitFor();
    expect(await page.getByLabel('Minimum preheat').inputValue()).toBe('140');
    await page.getByLabel('Revision', { exact: true }).fill('B');
    await page.getByLabel('Minimum preheat').fill('160');
    await page.getByRole('row', { name: 'Minimum preheat 140 °C 160 °C' }).waitFor();
    await page.getByRole('button', { name: 'Record in my name' }).click();
    await page.getByText('Say why there is a new revision').waitFor();
    await page.getByLabel('Why', { exact: true }).fill('cracks at the root of the trial plate');
    await look(page, 'procedures-revision');
    await page.getByRole('button', { name: 'Record in my name' }).click();
    await page.getByRole('heading', { name: 'Revision B holds' }).waitFor();
    await page.getByText('Changed: Minimum preheat 140 °C → 160 °C').waitFor();
    await look(page, 'procedures-two');

    // The joint says so, and goes by its own revision until it is changed over.
    await page.goto(`${address}#/joint/${joint.id}`);
    await page.getByText('this joint goes by revision A until it is changed over').waitFor();
    expect(before.assessment.limits.preheatMinimum).toBe(140_000);
    await look(page, 'procedures-joint');
    await act(page, /See what changes/, /Change over in my name/, async (form) => {
      await form.getByRole('row', { name: 'Minimum preheat 140 °C 160 °C' }).waitFor();
      await form.getByLabel('Why').fill('revision B holds from today');
      await look(page, 'procedures-change-over');
    });
    await page.getByText('this joint goes by revision A until it is changed over').waitFor({ state: 'detached' });
    const after = await asked<JointState>(`api/joints/${joint.id}`);
    expect(after.joint.boundRevision?.sha256).toBe((await kept())[1]!.sha256);
    expect(after.assessment.limits.preheatMinimum).toBe(160_000);

    // Withdrawn, it stays to be read, and no new joint can be bound to it.
    await page.goto(`${address}#/procedures/of/P-12`);
    await page.getByText('Withdraw this revision').click();
    await page.getByLabel('Why it is withdrawn').fill('superseded by the works standard');
    await page.getByRole('button', { name: 'Withdraw in my name' }).click();
    await page.getByRole('heading', { name: 'Revision A holds' }).waitFor();
    expect((await kept())[1]!.withdrawn).toMatchObject({
      who: 'Runa Teld',
      reason: 'superseded by the works standard',
    });
    await page.goto(`${address}#/joint/${joint.id}`);
    await page.getByText('was withdrawn').waitFor();
  });
});
