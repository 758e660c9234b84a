/** The two single papers of a joint: the working to be signed, and the card to hang on the part. Read as text. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { Instant } from '../../../server/measure/quantity.ts';
import { explain } from '../../../server/metallurgy/explanation.ts';
import type { PageModel } from '../../../server/report/page-model.ts';
import type { PaperFacts } from '../../../server/report/papers/paper-facts.ts';
import { papers } from '../../../server/report/papers/papers.ts';
import { setUpCard } from '../../../server/report/papers/set-up-card.ts';
import { workingPage } from '../../../server/report/papers/working-page.ts';
import { renderPdf } from '../../../server/report/pdf.ts';
import { readDemonstrationJoint } from '../../../server/station/demonstration.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

// Setting a page takes a second on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

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

test('both papers say the minimum through the thickness beside the soak by time, where the procedure asks for it', () => {
  const { procedure } = fixtureJoint();
  const heating = { means: 'resistance pads', face: 'front', whileWelding: 'on' };
  const asked = facts({ heating, procedure: { ...procedure, throughThicknessHoldMinutes: 10 } });
  for (const paper of Object.values(papers)) {
    const text = textOf(paper(asked));
    expect(text).toContain(
      '"Before the first pass","hold 20 min with every place at the minimum or above; the heaters stay on"',
    );
    expect(text).toContain(
      '"Through the thickness","the coldest point through every part at the minimum or above for 10 min, computed from the probes"',
    );
    expect(textOf(paper(facts()))).not.toContain('Through the thickness');
  }
  const alone = facts({
    heating,
    procedure: { ...procedure, soakHoldMinutes: undefined, throughThicknessHoldMinutes: 0 },
  });
  expect(textOf(setUpCard(alone))).toContain('no hold by time is stated: warm through is what counts');
  expect(textOf(setUpCard(alone))).toContain('at the minimum or above, computed from the probes');
});

test('a joint whose readings are simulated is marked so on both papers', () => {
  const made: PaperFacts = { ...facts(), source: { kind: 'simulated', detail: 'a board in software' } };
  for (const paper of Object.values(papers)) expect(paper(made).head.marks).toContain('SIMULATED');
  const measured: PaperFacts = { ...made, source: { kind: 'measured', detail: 'board 1' } };
  for (const paper of Object.values(papers)) expect(paper(measured).head.marks).not.toContain('SIMULATED');
});

test('each is one page to hold in the hand: the card with sixteen probes, the working with its signatures on the first', async (context) => {
  const installed = ['pdfinfo', 'pdftotext'].every((name) => spawnSync(name, ['-v']).error === undefined);
  context.skip(!installed, 'needs poppler-utils: pdfinfo, pdftotext');
  const probes = Array.from({ length: 16 }, (_, index) => ({
    id: `ring ${index + 1}`,
    board: 'board-7a3f',
    channel: index + 1,
    thermocouple: 'K',
    use: 'zone',
    place: {
      part: index < 8 ? 'shell course 2' : 'shell course 3',
      side: index < 8 ? 'A' : 'B',
      face: 'front',
      distanceMillimetres: 75,
      clock: (index % 8) * 1.5,
    },
  }));
  const folder = mkdtempSync(join(tmpdir(), 'papers-'));
  const printed = async (model: PageModel): Promise<string> => {
    const file = join(folder, 'paper.pdf');
    writeFileSync(file, await renderPdf(model));
    return file;
  };
  const told = (command: string, ...args: string[]): string => spawnSync(command, args, { encoding: 'utf8' }).stdout;
  const demonstration = readDemonstrationJoint(new URL('../../../demo-data/demonstration-joint.json', import.meta.url));
  const simulated = { kind: 'simulated', detail: 'a board in software' } as const;
  const here = { ...facts(demonstration), source: simulated, address: 'http://127.0.0.1:4180/#/joint/demonstration' };
  expect(told('pdfinfo', await printed(setUpCard(here)))).toMatch(/Pages:\s+1\n/);
  const card = await printed(setUpCard(facts({ jointType: 'pipe butt', probes, contact: 'Foreman, extension 12' })));
  expect(told('pdfinfo', card)).toMatch(/Pages:\s+1\n/);
  const working = await printed(workingPage(facts()));
  expect(told('pdftotext', '-l', '1', working, '-')).toContain('Signature');
  rmSync(folder, { recursive: true });
});
