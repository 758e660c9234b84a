/**
 * The check of the probes before heating, gone through as a fitter does: by what is written and what it is. The hand is
 * laid on the tips of the emulated board; one pair of wires is crossed, and two tips sit at each other's place.
 */
import { describe, test } from 'vitest';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import { noBrowser, useBrowser } from '../support/browser.ts';
import { act, look, sayWho, sentence, tablet, testPatience } from './support/hand.ts';
import { openWorkshop, type Workshop } from './support/workshop.ts';

const demonstration = readDemonstrationJoint(new URL('../../demo-data/demonstration-joint.json', import.meta.url));
const joint: Joint = jointSchema.parse({
  ...demonstration,
  id: 'girder-9',
  title: 'Girder 9, lower flange',
  procedure: { ...demonstration.procedure, ambientCheck: 'required' },
});
const channelOf = (probe: string): number => joint.probes.find(({ id }) => id === probe)!.channel;

/** The tip that the fitter believes to be that probe's. */
const swapped: Readonly<Record<string, string>> = { 'zone A': 'zone B', 'zone B': 'zone A' };

async function touch({ board, play }: Workshop, probe: string, celsius = 33): Promise<void> {
  board.inject({ kind: 'touch', channel: channelOf(probe), celsius });
  await play(20_000);
}

async function letGo({ board, play }: Workshop, probe: string): Promise<void> {
  board.inject({ kind: 'touch', channel: channelOf(probe), celsius: undefined });
  await play(25_000);
}

describe.skipIf(noBrowser)('the check of the probes at ambient', { timeout: testPatience }, () => {
  const browser = useBrowser();

  test('names what moved for each probe, is recorded by name, and made again it counts anew', async () => {
    const workshop = await openWorkshop(joint);
    const { address, board, station, play } = workshop;
    board.inject({ kind: 'channel', channel: channelOf('far A'), mishap: 'reversed-terminal' });
    const opened = station.pipeline.open(joint, 'Runa Teld');
    await play(20_000);
    await opened;
    const page = await tablet(browser);
    await page.goto(`${address}#/joint/girder-9`);
    await sentence(page)
      .filter({ hasText: /^Not ready/ })
      .waitFor();
    await page.getByRole('definition').filter({ hasText: 'Probes not checked at ambient' }).waitFor();
    await sayWho(page, 'Runa Teld', 'inspector');

    const begin = page.getByRole('button', { name: /^Check probes/ });
    await look(page, 'a-before-check');
    await begin.click();
    const form = page.getByRole('form', { name: 'Check the probes at ambient' });
    await form.getByRole('button', { name: 'Begin with zone A' }).click();
    await form.getByRole('alert').filter({ hasText: 'What does the air have?' }).waitFor();
    await form.getByLabel('The air has').fill('20,5');
    await form.getByLabel('Read with').fill('wall thermometer');
    await form.getByText(/^8 probes within /).waitFor();
    await look(page, 'a-rest');
    await form.getByRole('button', { name: 'Begin with zone A' }).click();

    const so = form.getByRole('status');
    const onward = (what: RegExp) => form.getByRole('button', { name: what });
    for (const probe of joint.probes.map(({ id }) => id)) {
      await form.getByText(`Hold the tip of ${probe}`).waitFor();
      await so.filter({ hasText: 'Waiting for a rise of 1.0 K' }).waitFor();
      const held = swapped[probe] ?? probe;
      await touch(workshop, held);
      if (held !== probe) await so.filter({ hasText: `${held} moves instead of ${probe}` }).waitFor();
      else if (probe === 'far A') await so.filter({ hasText: 'far A moves the wrong way' }).waitFor();
      else await so.filter({ hasText: `${probe} moves, and the right way` }).waitFor();
      if (probe === 'zone A' || probe === 'far B') await look(page, `a-touch-${probe.replace(' ', '-')}`);
      if (probe === 'far A') {
        // A page that is loaded anew goes on where it was.
        await page.reload();
        await page.getByRole('button', { name: /^Check probes/ }).click();
        await form.getByText('Probe 3 of 8').waitFor();
        await letGo(workshop, probe);
        await onward(/^Begin this one again/).click();
        await touch(workshop, probe);
        await so.filter({ hasText: 'far A moves the wrong way' }).waitFor();
      }
      await onward(held === probe && probe !== 'far A' ? /^In order; / : /^Not in order, leave it so; /).click();
      await letGo(workshop, held);
    }

    await form.getByText('3 of 8 probes not in order.').waitFor();
    const found = form.getByRole('list', { name: 'What was found' });
    await found.getByText('zone A has changed places with zone B').waitFor();
    await found.getByText(/far A moved the wrong way, .* its two wires are crossed/).waitFor();
    await look(page, 'a-found');
    await form.getByRole('button', { name: 'Record the check' }).click();
    await form.waitFor({ state: 'detached' });
    await page
      .getByRole('definition')
      .filter({ hasText: 'Check at ambient not passed: zone A, zone B and far A' })
      .waitFor();
    const findings = page.getByRole('region', { name: 'Findings' });
    await findings.getByText('Check at ambient: far A moved the wrong way').waitFor();
    await look(page, 'a-recorded');

    // One that is doubted leaves the judgement, and a spare takes its place, from the finding and from the table.
    await findings.getByRole('button', { name: 'Doubt far A' }).click();
    const probeForm = page.getByRole('form', { name: 'Probe far A' });
    await probeForm.getByText(/^Not judged then: the minimum preheat at side A, back face/).waitFor();
    await look(page, 'a-doubt');
    await probeForm.getByRole('button', { name: 'Take far A out of the judgement' }).click();
    await probeForm.getByRole('alert').filter({ hasText: 'Give the reason' }).waitFor();
    await probeForm.getByLabel('Reason').fill('Its wires are crossed.');
    await probeForm.getByRole('button', { name: 'Take far A out of the judgement' }).click();
    await probeForm.waitFor({ state: 'detached' });
    await findings.getByText('far A was taken out of the judgement').waitFor();
    await page.getByRole('button', { name: /^far A what/ }).click();
    await probeForm.getByText('Let a spare take over').click();
    await probeForm.getByText('Where it sits: B back 90 mm').waitFor();
    await probeForm.getByLabel('Reason').fill('far B is sound.');
    await look(page, 'a-spare');
    await probeForm.getByRole('button', { name: 'Let far B take over from far A' }).click();
    await probeForm.waitFor({ state: 'detached' });
    const probes = page.getByRole('region', { name: 'Probes' });
    await probes.getByRole('row', { name: /far B/ }).getByText('Opposite face').waitFor();
    await act(page, /^far A what/, /^Trust far A again$/, async (each) => {
      await each.getByLabel('Reason').fill('Wires swapped back.');
    });
    await page.getByRole('link', { name: 'All entries' }).click();
    for (const line of [
      /^Probes checked at ambient: zone A has changed places/,
      /^far A taken out/,
      /^Spare far B took over/,
      /^far A trusted again: Wires swapped back/,
    ])
      await page.getByRole('cell', { name: line }).first().waitFor();
  });
});
