/** A word for a state is worn beside the name of the thing that is in it, and styled only together: alone it would meet every other thing in that state. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { root } from './sources.ts';

const states = ['ready', 'waiting', 'running', 'outside', 'unknown', 'closed', 'live', 'lost', 'met', 'not-met'];

test('no rule of style is for a state by itself', () => {
  const folder = `${root}/web/style`;
  const bare = readdirSync(folder).flatMap((file) =>
    readFileSync(`${folder}/${file}`, 'utf8')
      .split('\n')
      .filter((line) => states.some((state) => new RegExp(`^\\s*\\.${state}\\s*[,{]`).test(line)))
      .map((line) => `${file}: ${line}`),
  );
  expect(bare).toEqual([]);
});
