/** Passes as a person enters them: with the numbers of the arc, some of them later, and a slip that is put right. */
import { describe, expect, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, tablet, testPatience } from './support/hand.ts';
import { minutes, openWorkshop } from './support/workshop.ts';

const plain = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint = jointSchema.parse({
  ...plain,
  process: '111',
  procedure: {
    ...plain.procedure!,
    heatInput: { counted: 'heat input', minimumKilojoulesPerMillimetre: 0.8, maximumKilojoulesPerMillimetre: 1.6 },
  },
});

describe.skipIf(noBrowser)('passes', () => {
  const browser = useBrowser();

  async function atWork() {
    const { address, station, play } = await openWorkshop(joint, { hot: true });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(minutes(18));
    await opened;
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/${joint.id}`);
    await sayWho(page, 'Runa Teld', 'inspector');
    return { station, play, page };
  }

  test('numbers of the arc, the same again by one press, and later ones', {
    timeout: testPatience,
  }, async () => {
    const { play, page } = await atWork();
    const list = page.getByRole('region', { name: 'Passes' });

    await act(page, /^Start pass/, /^Start pass 1/, async () => {});
    await play(minutes(4));
    await act(page, /^End pass/, /^End pass 1$/, async (form) => {
      await form.getByLabel(/^Volts/).fill('24');
      await form.getByLabel(/^Amperes/).fill('160');
      await form.getByLabel('Travel speed').fill('3');
      await form
        .getByText(/^Heat input 1.024 kJ\/mm. Window of the procedure: Heat input 0.8 kJ\/mm to 1.6 kJ\/mm/)
        .waitFor();
      await look(page, 'pass-end');
    });
    await list.getByText('1.024 kJ/mm, within its window').waitFor();

    // Nothing of the pass before stands in the form until it is asked for.
    await act(page, /^Start pass/, /^Start pass 2/, async () => {});
    await play(minutes(4));
    await act(page, /^End pass/, /^End pass 2$/, async (form) => {
      expect(await form.getByLabel(/^Volts/).inputValue()).toBe('');
      await form.getByRole('button', { name: 'Same as pass 1' }).click();
      expect(await form.getByLabel(/^Volts/).inputValue()).toBe('24');
      await form.getByLabel(/^Amperes/).fill('270');
    });
    await list.getByText('1.728 kJ/mm, above its window').waitFor();
    await page.getByText(/Heat input of pass 2 above the window: 1.728 kJ\/mm, at most 1.6 kJ\/mm/).waitFor();

    await act(page, /^Start pass/, /^Start pass 3/, async () => {});
    await play(minutes(2));
    await act(page, /^End pass/, /^End pass 3$/, async () => {});
    await list.getByText('not given: volts, amperes and travel speed').waitFor();
    await act(page, /^Details pass 3/, /Record the details/, async (form) => {
      await form.getByLabel(/^Volts/).fill('25');
      await form.getByLabel(/^Amperes/).fill('150');
      await form.getByLabel('Length and arc time').check();
      await form.getByLabel('Length of the run').fill('360');
      await form.getByLabel('Time of arc').fill('120');
      await form.getByLabel('Consumable and batch').fill('E-42, lot 7');
    });
    await list.getByText('1 kJ/mm, within its window').waitFor();
    await page.getByRole('img', { name: /^Heat input of each pass, kJ\/mm. 1: 1.02, 2: 1.73, 3: 1/ }).waitFor();
    await page.getByRole('img', { name: /^Before each pass, °C/ }).waitFor();
    await look(page, 'passes');
  });

  test('a slip is put right, and what stood before stays in sight', { timeout: 2 * testPatience }, async () => {
    const { station, play, page } = await atWork();
    const passes = () => station.pipeline.run(joint.id)!.assessment.passes;
    const list = page.getByRole('region', { name: 'Passes' });
    for (const pass of ['1', '2']) {
      await act(page, /^Start pass/, new RegExp(`^Start pass ${pass}`), async () => {});
      await play(minutes(3));
      await act(page, /^End pass/, new RegExp(`^End pass ${pass}$`), async (form) => {
        await form.getByLabel(/^Volts/).fill('24');
        await form.getByLabel(/^Amperes/).fill('270');
        await form.getByLabel('Travel speed').fill('3');
      });
    }
    const started = passes()[0]!.startedAt;
    await act(page, /^Correct pass 1/, /Record the correction/, async (form) => {
      await form.getByRole('button', { name: 'Record the correction' }).click();
      await form.getByText('Why is it put right? A word or two.').waitFor();
      const [hours, rest, seconds] = (await form.getByLabel('Started at').inputValue()).split(':');
      await form.getByLabel('Started at').fill(`${hours}:${String(Number(rest) + 1).padStart(2, '0')}:${seconds}`);
      await form.getByText('Layer, consumable, side, numbers of the arc').click();
      await form.getByLabel(/^Amperes/).fill('170');
      await form.getByLabel('Why').fill('read off the wrong dial');
      await look(page, 'pass-correct');
    });
    // The whole record is judged anew beside the trip, which takes its turn when time goes on.
    const corrected = async (): Promise<number | undefined> => {
      await play(1000);
      return passes()[0]?.corrections?.length;
    };
    await expect.poll(corrected, { timeout: 60_000 }).toBe(1);
    expect(passes()[0]!.startedAt - started).toBe(60_000 - (started % 1000));
    await list.getByText(/Entered at first: begun .*, 270 A \(judged then: .*heat input above its window\)/).waitFor();
    await list.getByText('1.088 kJ/mm, within its window').waitFor();

    await page.getByRole('button', { name: /^Correct pass 2/ }).click();
    await page.getByLabel('There was no such pass').check();
    await page.getByLabel('Why').fill('entered on the wrong joint');
    await page.getByRole('button', { name: /^Strike pass 2$/ }).click();
    const struck = async (): Promise<number> => {
      await play(1000);
      return passes().length;
    };
    await expect.poll(struck, { timeout: 60_000 }).toBe(1);
    await list.getByText(/Struck by Runa Teld/).waitFor();
    expect(passes().map(({ pass }) => pass)).toEqual(['1']);
    await look(page, 'passes-corrected');
  });
});
