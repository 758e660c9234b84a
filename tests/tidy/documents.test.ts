/** README.md and DEVELOPERS.md name files, functions and commands; this holds them to what stands. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commands } from '../../server/commands/list.ts';
import { root, textOf } from './sources.ts';

const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };
const developers = textOf('DEVELOPERS.md');
const readme = textOf('README.md');

const quoted = (text: string): string[] => [...text.matchAll(/`([^`\n]+)`/g)].map(([, words]) => words!);

describe.each([
  ['README.md', readme],
  ['DEVELOPERS.md', developers],
])('%s', (_name, text) => {
  test('every path in it exists', () => {
    const paths = quoted(text).filter((words) =>
      /^(server|web|tests|firmware-protocol|demo-data|\.ci)\/[\w./-]*$/.test(words),
    );
    const links = [...text.matchAll(/\]\(([^)#:]+)\)/g)].map(([, path]) => path!);
    expect(paths.length + links.length).toBeGreaterThan(3);
    expect([...paths, ...links].filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });

  test('every npm script in it exists', () => {
    const run = [...text.matchAll(/npm run (?:-s )?([\w-]+)/g)].map(([, script]) => script!);
    const plain = [...text.matchAll(/npm (start|test)\b/g)].map(([, script]) => script!);
    expect([...run, ...plain].filter((script) => scripts[script] === undefined)).toEqual([]);
  });
});

test('the trip in DEVELOPERS.md names functions that stand in the files it names', () => {
  const named = [...developers.matchAll(/`(\w+)`\s+\(`((?:server|web|firmware-protocol)\/[\w./-]+)`\)/g)];
  expect(named.length).toBeGreaterThan(12);
  const absent = named.filter(([, name, file]) => !new RegExp(`\\b${name}\\b`).test(textOf(file!)));
  expect(absent.map(([, name, file]) => `${name} in ${file}`)).toEqual([]);
});

test('README.md has a row for every command, and no other', () => {
  const rows = [...readme.matchAll(/^\| `([a-z-]+)[^`]*` +\|/gm)].map(([, name]) => name!);
  expect(rows.sort()).toEqual(commands.map(({ name }) => name).sort());
});

test('README.md says the cautions that screens and reports say', () => {
  expect(readme).toMatch(/never says that a weld is safe/);
  for (const word of ['governing code', 'Hot metal', 'kill', 'Hydrogen', 'tip']) expect(readme).toContain(word);
});
