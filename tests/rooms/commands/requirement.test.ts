/** The commands requirement and schema: answers, exit status, what goes to which stream. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import type { Command } from '../../../server/commands/command.ts';
import { requirement } from '../../../server/commands/requirement.ts';
import { schema } from '../../../server/commands/schema.ts';
import type { Requirement } from '../../../server/metallurgy/answer.ts';
import { plainJoint, plainPart, plainProcedure, withPercent } from '../../support/plain-joint.ts';

const folder = mkdtempSync(join(tmpdir(), 'requirement-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function ran(command: Command, ...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const status = await command.run(args, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { status, out: out.join('\n'), err: err.join('\n') };
}
const demo = (file: string) => fileURLToPath(new URL(`../../../demo-data/${file}.json`, import.meta.url));
function written(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

test('--json answers these parts and the unit system of its words, each method with its working', async () => {
  const { status, out, err } = await ran(requirement, demo('s1-base-plate'), '--json');
  expect([status, err]).toEqual([0, '']);
  const answer = JSON.parse(out) as Requirement;
  expect(Object.keys(answer)).toEqual([
    'units',
    'equivalents',
    'methods',
    'governing',
    'warnings',
    'combinedThickness',
    'martensiteStart',
    'cooling',
    'upperLimits',
    'afterWelding',
    'sensitivities',
  ]);
  for (const key of ['id', 'edition', 'applicable', 'reason', 'inputs', 'terms', 'source', 'status']) {
    expect(answer.methods[0]).toHaveProperty(key);
  }
  expect(answer.methods[0]!.preheatMinimumCelsius).toBeCloseTo(143.735, 2);
  expect(answer.governing).toMatchObject({ kind: 'highest method', preheatMinimumCelsius: 145 });
});

test('in words: the answer, the formula, each term and a caution', async () => {
  const { status, out } = await ran(requirement, demo('s1-base-plate'));
  expect(status).toBe(0);
  expect(out).toContain('Required preheat: 145 °C');
  expect(out).toContain('697·CET');
  expect(out).toContain('750·CET − 150 = 95.4375 °C');
  expect(out).toContain('does not say that a weld is sound or safe');
});

test('beside it in words: cooling, upper limits, what comes after welding, what matters most', async () => {
  const more = {
    weldShape: 'between runs of a butt weld',
    coolingSeconds: { minimum: 8, maximum: 25 },
    waitingEdition: 'EN 1090-2:2008',
    postHeating: { celsius: 250, hours: 2 },
    procedure: plainProcedure,
  } as const;
  const parts = [plainPart({ kind: 'C-Mn and fine grain', yieldMegapascals: 355 })];
  const path = written('beside.json', JSON.stringify(plainJoint({ ...more, parts })));
  const { status, out } = await ran(requirement, path);
  expect(status).toBe(0);
  const [cooling, upper, after, matters] = ['Cooling', 'Upper limits', 'After welding', 'What matters most'].map(
    (title) => new RegExp(`\\n${title}\\n((  .*\\n)+)`).exec(out)?.[1] ?? '',
  );
  expect(cooling).toContain('arc energy without k: 1.875 kJ/mm');
  expect(cooling).toContain('from 150 °C (minimum preheat): 10.6 s');
  // 8 s at 150 °C is 1.1329 and 25 s at 250 °C is 2.3360 kJ/mm with F3 0.9, computed from the formulas; shown inwards.
  expect(cooling).toContain('over all of these temperatures: 1.14 kJ/mm to 2.33 kJ/mm');
  expect(upper).toContain('250 °C for C-Mn and fine grain');
  expect(upper).toContain('martensite start, Andrews');
  expect(after).toContain('EN 1090-2:2008: at least 16 h from the end of welding');
  expect(after).toContain('of the hydrogen left');
  expect(matters).toMatch(/K for each 1 ml\/100 g more hydrogen \(EN 1011-2 method B/);
});

test('without the facts for it, what stands beside asks', async () => {
  const { out } = await ran(requirement, demo('s6-p91-pipe'));
  expect(out).toContain('no cooling time; part');
  expect(out).toContain('No rule for the wait is chosen');
});

test('in words: what may govern comes before what only compares, each with its standing and why it gives no number', async () => {
  const { out } = await ran(requirement, demo('s1-base-plate'));
  const at = (text: string) => {
    expect(out).toContain(text);
    return out.indexOf(text, out.indexOf('\nMethods'));
  };
  expect(at('AWS D1.1 prequalified minimum, plate A and plate B: 110 °C')).toBeLessThan(at('Séférian, plate A'));
  expect(at('AWS D1.1 hydrogen control, plate A and plate B: 140 °C')).toBeLessThan(
    at('EN 1011-2 method A (CE), plate'),
  );
  expect(at('no formula: read figure C.2 with CE 0.438')).toBeLessThan(
    at('ASME B31.1 paragraph 131.4, plate A and plate B'),
  );
  expect(out).toContain('no number; cannot be computed yet; needed: the P-number of the part');
  expect(out).toContain('standing: for comparison only: no code is chosen');
});

test('a refused steel answers 2, with the reason and what to consult; so does an extended range', async () => {
  const refused = await ran(requirement, demo('s6-p91-pipe'));
  expect(refused.status).toBe(2);
  expect(refused.out).toContain('Cr 8.75 % is above 1.5 %');
  expect(refused.out).toContain('Consult the qualified welding procedure');
  expect((await ran(requirement, demo('s4-cast-body-repair'), '--json')).status).toBe(2);
});

test('no preheat needed is an answer of its own', async () => {
  const soft = plainPart({ thicknessMillimetres: 20, analyses: [withPercent({ C: 0.1, Mn: 1.2 })] });
  const path = written('soft.json', JSON.stringify(plainJoint({ parts: [soft] })));
  const { status, out } = await ran(requirement, path);
  expect(status).toBe(0);
  expect(out).toContain('No preheat needed');
});

test('bad input answers 3 on standard error, naming field, found and allowed', async () => {
  const path = written('bad.json', JSON.stringify({ ...plainJoint(), process: 135 }));
  const { status, out, err } = await ran(requirement, path, '--json');
  expect([status, out]).toEqual([3, '']);
  expect(err).toContain('process');
  expect(err).toContain('found:   the number 135');
  expect(err).toContain('allowed: one of');
});

test('no file, a folder, no name, two names, an unknown option: 3, with what to do', async () => {
  const cases: readonly [string[], string][] = [
    [[join(folder, 'none.json')], 'There is no such file'],
    [[folder], 'It is a folder'],
    [[], 'name one joint file'],
    [[demo('s1-base-plate'), demo('s2-crane-boom')], 'name one joint file'],
    [[demo('s1-base-plate'), '--jsn'], '--jsn'],
    [[written('not.json', '{')], 'not JSON'],
  ];
  for (const [args, words] of cases) {
    const { status, out, err } = await ran(requirement, ...args);
    expect([status, out]).toEqual([3, '']);
    expect(err).toContain(words);
  }
});

test('schema joint prints the JSON Schema; anything else is refused', async () => {
  const { status, out } = await ran(schema, 'joint');
  expect(status).toBe(0);
  expect((JSON.parse(out) as { $schema: string }).$schema).toContain('2020-12');
  for (const args of [[], ['toString'], ['joint', 'more']]) {
    const refused = await ran(schema, ...args);
    expect(refused.status).toBe(3);
    expect(refused.err).toContain('name one of: joint');
  }
});

test('--help is answered whatever stands beside it', async () => {
  for (const command of [requirement, schema]) {
    const { status, out } = await ran(command, '--help', '--no-such');
    expect([status, out]).toEqual([0, command.help]);
  }
});

test('--working and --card write the two papers, the same bytes each time, and say where; the answer stays alone on its stream', async () => {
  const [working, card, again] = ['working.pdf', 'card.pdf', 'again.pdf'].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  const first = await ran(requirement, demo('s1-base-plate'), '--json', '--working', working, '--card', card);
  expect(first.status).toBe(0);
  expect(first.err).toContain(`written: ${working}`);
  expect(JSON.parse(first.out).governing.preheatMinimumCelsius).toBe(145);
  for (const file of [working, card]) expect(readFileSync(file).subarray(0, 5).toString()).toBe('%PDF-');
  await ran(requirement, demo('s1-base-plate'), '--working', again);
  expect(readFileSync(again).equals(readFileSync(working))).toBe(true);
});

test('a paper that cannot be written is told, with status 3 and no answer', async () => {
  const { status, out, err } = await ran(
    requirement,
    demo('s1-base-plate'),
    '--card',
    join(folder, 'none', 'card.pdf'),
  );
  expect([status, out]).toEqual([3, '']);
  expect(err).toMatch(/card\.pdf: cannot be written\. There is no such folder/);
});
