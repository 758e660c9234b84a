import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { connectedBy, connectionKinds, readConnection } from '../../../server/weld/connection/connection.ts';

const folder = new URL('../../../demo-data/connections/', import.meta.url);
const files = readdirSync(folder);

test.each(files)('the example %s is read', (name) => {
  const result = readConnection(readFileSync(new URL(name, folder), 'utf8'));
  expect(result).not.toHaveProperty('problems');
  if ('connection' in result) expect(connectedBy(result.connection).length).toBeGreaterThan(0);
});

test('there is one of each kind, and the page names them all', () => {
  const kinds = files.map((name) => (JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as { kind: string }).kind);
  expect(kinds.toSorted()).toEqual([...connectionKinds].toSorted());
  const page = readFileSync(new URL('../../../firmware-protocol/INSTRUMENTS.md', import.meta.url), 'utf8');
  for (const kind of connectionKinds) expect(page).toContain(`\`${kind}\``);
});
