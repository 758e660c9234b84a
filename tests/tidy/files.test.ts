/** What every file owes its next reader: a place, a bounded length, a first sentence, and nothing left lying about. */
import { basename } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { files, isCode, parsed, sources, textOf } from './sources.ts';

const code = files.filter(isCode);
const texts = files.filter((file) => !/\.(pdf|png|ttf|gz|bin|ico|woff2)$/.test(file) && file !== 'package-lock.json');

/** Tables are typed from a source and read against it line by line; splitting them would help nobody. */
const tables: readonly string[] = [];
const linesMaximum = 300;

test('the top level holds what it is meant to hold', () => {
  const meant =
    'README.md DEVELOPERS.md package.json package-lock.json tsconfig.json server web firmware-protocol tests demo-data';
  const top = [...new Set(files.map((file) => file.split('/')[0]!))].filter((name) => !name.startsWith('.'));
  expect(top.filter((name) => !meant.split(' ').includes(name))).toEqual([]);
  expect(code.length).toBeGreaterThan(150);
});

test(`no file of code is longer than ${linesMaximum} lines`, () => {
  const long = code.filter((file) => !tables.includes(file) && textOf(file).split('\n').length > linesMaximum + 1);
  expect(long).toEqual([]);
});

test('every file of code opens with a comment that says what it is for; tests say so by their names', () => {
  const spoken = code.filter((file) => !/\.test\.tsx?$/.test(file));
  expect(spoken.filter((file) => !/^(#!.*\n)?\s*(\/\*\*|\/\/)/.test(textOf(file)))).toEqual([]);
});

test('no barrels: a file defines something, and imports name the file that defines', () => {
  expect(code.filter((file) => /^index\./.test(basename(file)))).toEqual([]);
  expect(sources.filter((file) => isBarrel(parsed(file)))).toEqual([]);
});

test('what a file exports, another one uses', () => {
  const holders = new Map<string, number>();
  for (const file of code)
    for (const word of new Set(textOf(file).match(/[\w$]+/g))) holders.set(word, (holders.get(word) ?? 0) + 1);
  const exported = sources.flatMap((file) =>
    [...textOf(file).matchAll(/^export (?:async )?(?:const|function\*?|class) ([\w$]+)/gm)].map(
      ([, name]) => [file, name!] as const,
    ),
  );
  expect(exported.length).toBeGreaterThan(1000);
  expect(exported.filter(([, name]) => holders.get(name) === 1).map(([file, name]) => `${name} in ${file}`)).toEqual(
    [],
  );
});

function isBarrel(source: ts.SourceFile): boolean {
  const passedOn = source.statements.filter(
    (each) => ts.isExportDeclaration(each) && each.moduleSpecifier !== undefined,
  );
  return passedOn.length > 0 && passedOn.length === source.statements.length;
}

/** Built from pieces, so that this file does not hold what it looks for. */
const unwanted: readonly (readonly [string, RegExp])[] = [
  ['work left open', new RegExp(`\\b(${['TO', 'DO'].join('')}|${['FIX', 'ME'].join('')}|${['XX', 'X'].join('')})\\b`)],
  ['a path of one machine', new RegExp(`(?<![\\w.])/(${['work', 'home', 'root', 'Users'].join('|')})/`)],
  ['a test that hides others', new RegExp(`\\b(test|it|describe)\\.${['on', 'ly'].join('')}\\b`)],
  [
    'a type check switched off',
    new RegExp(`@ts-${['(ignore', 'nocheck)'].join('|')}|\\bas ${['an', 'y'].join('')}\\b`),
  ],
  ['a ticket number instead of a reason', new RegExp(`\\b${['iss', 'ue'].join('')} #?\\d`, 'i')],
  ['a registry address', new RegExp(['registry', 'npmjs'].join('\\.'))],
];

describe('nothing is left lying about', () => {
  test.each(unwanted)('%s', (_what, pattern) => {
    const found = texts.flatMap((file) =>
      textOf(file)
        .split('\n')
        .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}: ${line.trim().slice(0, 100)}`] : [])),
    );
    expect(found).toEqual([]);
  });

  test('the lock file names no host', () => expect(textOf('package-lock.json')).not.toContain('"resolved": "http'));

  test.each([
    ['work left open', `// ${['TO', 'DO'].join('')}: later`],
    ['a path of one machine', ['"', 'home', 'someone"'].join('/')],
    ['a test that hides others', `test.${['on', 'ly'].join('')}('x', () => {});`],
    ['a type check switched off', `value as ${['an', 'y'].join('')};`],
    ['a ticket number instead of a reason', `see ${['iss', 'ue'].join('')} 12`],
  ])('the look sees %s', (what, line) => expect(unwanted.find(([name]) => name === what)![1].test(line)).toBe(true));
});
