/** `judge` as a person types it: verdicts, scope, exit status, and errors that say what to do. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { judge } from '../../../server/commands/judge.ts';
import { demonstrationLog, kept } from '../../support/demonstration-log.ts';
import { workbookOf } from '../../support/workbook.ts';

const data = fileURLToPath(new URL('../../../demo-data/', import.meta.url));
const joint = join(data, 'demonstration-joint.json');
const log = join(data, 'demonstration-log.csv');
const events = join(data, 'demonstration-events.csv');

async function run(...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const status = await judge.run(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { status, out: out.join('\n'), err: err.join('\n') };
}

/** The events file with one line changed, in a folder of its own. */
function changed(change: (text: string) => string): string {
  const file = join(mkdtempSync(join(tmpdir(), 'judge-test-')), 'events.csv');
  writeFileSync(file, change(readFileSync(events, 'utf8')));
  return file;
}

interface Told {
  readonly kind: string;
  readonly probe: string | null;
}
/** One of the two faults that the demonstration is played with (demo-data/README.md). */
const isOfFallenTip = ({ kind, probe }: Told): boolean => kind === 'probe suspect' && probe === 'pass B';

describe('the demonstration log', () => {
  it('is what the emulated board gives, to the byte', () => {
    const made = demonstrationLog();
    expect(kept('demonstration-log.csv')).toBe(made.log);
    expect(kept('demonstration-events.csv')).toBe(made.events);
  });

  it('names the tip that comes off in the demonstration, as a remark', async () => {
    const answer = await run(joint, log, '--events', events, '--json');
    const suspects = JSON.parse(answer.out).findings.filter(isOfFallenTip);
    expect(suspects.length).toBeGreaterThan(0);
    expect(suspects[0]).toMatchObject({ severity: 'remark' });
  });

  it('complies with its events', async () => {
    const answer = await run(joint, log, '--events', events, '--json');
    expect(answer.status).toBe(0);
    const said = JSON.parse(answer.out);
    expect(said.verdict).toBe('complies');
    expect(said.findings.every(isOfFallenTip)).toBe(true);
    expect(said.passes.map((pass: { pass: string; startedAt: number }) => [pass.pass, pass.startedAt])).toEqual([
      ['1', 5760],
      ['2', 6120],
      ['3', 6480],
    ]);
    expect(said.requirement.governing.preheatMinimumCelsius).toBe(145);
  });

  it('does not comply when the first arc is struck after the hold by time and before the core', async () => {
    const early = changed((text) =>
      text.replace('5760,pass start', '3500,pass start').replace('6000,pass end', '3700,pass end'),
    );
    const answer = await run(joint, log, '--events', early, '--json');
    expect(answer.status).toBe(1);
    const said = JSON.parse(answer.out);
    const findings = said.findings.filter((each: Told) => !isOfFallenTip(each));
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      kind: 'through thickness not met',
      pass: '1',
      part: 'plate B',
      from: 3500,
      limit: 145,
    });
    expect(findings[0].value).toBeLessThan(145);
    expect(findings[0].value).toBeGreaterThan(143);
  });

  it('cannot be judged without events, and says so in its scope', async () => {
    const answer = await run(joint, log, '--json');
    expect(answer.status).toBe(2);
    const said = JSON.parse(answer.out);
    expect(said.verdict).toBe('cannot-be-judged');
    expect(said.scope.join(' ')).toMatch(/without events passes, soak/);
    expect(said.soak.state).toBe('not judged');
  });

  it('says how each part stands inside, in the units of the job', async () => {
    const said = await run(joint, log, '--events', events);
    expect(said.out).toMatch(/^Heat through the thickness: .+ First done: \d+ s\.$/m);
    for (const part of ['plate A', 'plate B'])
      expect(said.out).toMatch(new RegExp(`^  Through ${part}.*coldest point .*\\d °C of 145 °C`, 'm'));
    const file = join(mkdtempSync(join(tmpdir(), 'judge-test-')), 'joint.json');
    writeFileSync(file, JSON.stringify({ ...JSON.parse(readFileSync(joint, 'utf8')), units: 'inch' }));
    const inch = (await run(file, log, '--events', events)).out.split('\n').filter((line) => /Through/.test(line));
    expect(inch.length).toBe(2);
    for (const line of inch) expect(line).toMatch(/^(?!.*°C).*\d °F of 293 °F/);
  });

  it('gives the inside as numbers too', async () => {
    const { throughThickness } = JSON.parse((await run(joint, log, '--events', events, '--json')).out);
    expect(throughThickness).toMatchObject({ asked: true, requiredSeconds: 60 });
    expect(throughThickness.sections.map(({ part }: { part: string }) => part)).toEqual(['plate A', 'plate B']);
    for (const { coldestCelsius: coldest } of throughThickness.sections) {
      expect(coldest.low).toBeLessThanOrEqual(coldest.likely);
      expect(coldest.likely).toBeLessThanOrEqual(coldest.high);
    }
    // The arc of the first pass is struck at 5760 s, and was not found outside.
    expect(throughThickness.firstDoneAt).toBeLessThan(5760);
  });

  it('writes the report', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'judge-test-')), 'report.pdf');
    const answer = await run(joint, log, '--events', events, '--report', file);
    expect(answer.status).toBe(0);
    expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
  });
});

describe('an imported log', () => {
  it('with elapsed times says on its report that the dates mean nothing; with a start it does not', async (context) => {
    context.skip(spawnSync('pdftotext', ['-v']).error !== undefined, 'needs poppler-utils: pdftotext');
    const file = join(mkdtempSync(join(tmpdir(), 'judge-test-')), 'report.pdf');
    const said = async (...further: string[]): Promise<string> => {
      expect((await run(joint, log, '--events', events, '--report', file, ...further)).status).toBe(0);
      return spawnSync('pdftotext', [file, '-'], { encoding: 'utf8' }).stdout.replaceAll(/\s+/g, ' ');
    };
    expect(await said()).toContain('the dates shown here mean nothing');
    expect(await said('--start', '2026-03-02T06:00:00Z')).not.toContain('mean nothing');
  });
});

describe('bad input', () => {
  it.each([
    ['no log', [joint], /name one joint file and one log/],
    ['a log that is not there', [joint, 'nowhere.csv'], /nowhere\.csv: cannot be read/],
    ['a column that is no probe', [joint, log, '--column', 'zone A=nobody'], /nobody/],
    ['an offset that is none', [joint, log, '--offset', 'noon'], /--offset wants/],
    ['a start without offset', [joint, log, '--start', '2026-01-01T00:00:00'], /--start wants/],
    ['an option that nobody knows', [joint, log, '--fast'], /--help/],
  ])('%s: status 3 and what to do', async (_what, args, message) => {
    const answer = await run(...args);
    expect(answer.status).toBe(3);
    expect(answer.err).toMatch(message);
    expect(answer.out).toBe('');
  });

  it('names the line of an events file that cannot be used', async () => {
    const answer = await run(
      joint,
      log,
      '--events',
      changed((text) => text.replace('pass start,A', 'pass begin,A')),
    );
    expect(answer.status).toBe(3);
    expect(answer.err).toMatch(/events\.csv: line 4/);
  });

  it('asks which sheet of a workbook, and reads the one that is named', async () => {
    const sheet = (name: string): string =>
      `sheet ${name}\n1: Elapsed (s) | zone A (°C) | far side (°C)\n2: 0 | 20 | 20\n3: 10 | 21 | 20\n`;
    const file = join(mkdtempSync(join(tmpdir(), 'judge-test-')), 'log.xlsx');
    writeFileSync(file, workbookOf(`${sheet('early')}${sheet('late')}`));
    const asked = await run(joint, file);
    expect(asked.status).toBe(3);
    expect(asked.err).toMatch(/several sheets hold readings: early, late; say which \(--sheet\)/);
    // It has two of the joint's probes only, which is told of the sheet that was named.
    expect((await run(joint, file, '--sheet', 'late')).err).toMatch(/line 1: no column is mapped to probes/);
  });
});
