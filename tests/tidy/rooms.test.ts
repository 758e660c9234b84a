/** Imports go one way, as the list in DEVELOPERS.md says. Without this the order is a wish. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { houseRules, objection, readHouseRules, roomOf } from './house-rules.ts';
import { importsOf, root, sources } from './sources.ts';

const modules = sources.filter((file) => !file.endsWith('.mjs'));
const imports = modules.flatMap(importsOf);
const own = imports.filter((each) => each.isOwn);

test('the scan sees the project', () => {
  expect(modules.length).toBeGreaterThan(100);
  expect(own.length).toBeGreaterThan(300);
  // One known import of each kind: static, type-only, dynamic package import by a worker or a page.
  expect(own.some(({ from, to }) => from === 'server/pipeline.ts' && to.startsWith('server/trip/'))).toBe(true);
  expect(own.some(({ to }) => to === 'server/screen/contract.ts')).toBe(true);
});

test('every import of an own file names a file that exists', () => {
  expect(own.filter(({ to }) => !existsSync(join(root, to))).map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
});

test('every import goes to a lower room', () => {
  const objections = own.flatMap(({ from, to }) => {
    const why = objection(houseRules, from, to);
    return why === undefined ? [] : [`${from} -> ${to}: ${why}`];
  });
  expect(objections).toEqual([]);
});

test('every room in the list exists, and every room stands in it once', () => {
  const listed = houseRules.levels.flat();
  expect(new Set(listed).size).toBe(listed.length);
  expect([...new Set(modules.map(roomOf))].sort()).toEqual([...listed].sort());
  for (const room of [...houseRules.pure, ...houseRules.inlets, ...houseRules.outlets]) expect(listed).toContain(room);
});

test('nobody imports main, nor the files that start it', () => {
  const starters = /^server\/(main\.ts|launch\.mjs|install\.mjs|build\.mjs)$/;
  expect(own.filter(({ to }) => starters.test(to))).toEqual([]);
});

test('no file of the product imports a test', () => {
  expect(own.filter(({ to }) => to.startsWith('tests/'))).toEqual([]);
});

test('what stands for the board shares nothing with those who read and judge it', () => {
  const boards = own.filter(({ from }) => from.startsWith('firmware-protocol/'));
  expect(boards.length).toBeGreaterThan(10);
  expect(boards.filter(({ to }) => !to.startsWith('firmware-protocol/'))).toEqual([]);
});

test('no circle of imports within a room either, but for types', () => {
  const next = new Map<string, string[]>();
  for (const { from, to } of own.filter((each) => !each.isTypeOnly)) next.set(from, [...(next.get(from) ?? []), to]);
  const done = new Set<string>();
  const circles: string[] = [];
  const visit = (file: string, path: string[]): void => {
    if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(' -> '));
    if (done.has(file) || path.includes(file)) return;
    for (const to of next.get(file) ?? []) visit(to, [...path, file]);
    done.add(file);
  };
  for (const file of modules) visit(file, []);
  expect(circles).toEqual([]);
});

describe('the rule itself objects', () => {
  const rules = readHouseRules(
    '```rooms\ncodec, measure\nweld, wire\nscreen, report\nweb/feed\npure: measure weld\ninlets: wire\noutlets: screen, report\n```\n',
  );
  test.each([
    ['server/measure/a.ts', 'server/weld/b.ts', '"weld" is not below "measure"'],
    ['server/weld/a.ts', 'server/wire/b.ts', '"wire" is not below "weld"'],
    ['server/screen/a.ts', 'server/report/b.ts', 'an outlet imports neither'],
    ['server/report/a.ts', 'server/wire/b.ts', 'an outlet imports neither'],
    ['web/feed/a.ts', 'server/screen/live.ts', 'pages import pure rooms'],
    ['server/screen/a.ts', 'web/feed/b.ts', 'never imports the pages'],
    ['server/new/a.ts', 'server/weld/b.ts', '"new" does not stand in the list'],
  ])('%s -> %s', (from, to, why) => expect(objection(rules, from, to)).toContain(why));
  test.each([
    ['server/weld/a.ts', 'server/measure/b.ts'],
    ['server/weld/a.ts', 'server/weld/b.ts'],
    ['web/feed/a.ts', 'server/screen/contract.ts'],
    ['web/feed/a.ts', 'server/weld/b.ts'],
    ['firmware-protocol/codec/a.ts', 'firmware-protocol/codec/b.ts'],
  ])('and lets pass %s -> %s', (from, to) => expect(objection(rules, from, to)).toBeUndefined());
});
