/** Awkward logs, as loggers and spreadsheets write them, each with its right reading in a text beside it (log-reading.ts). */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readLog } from '../../../server/wire/log-file.ts';
import { logReading } from '../../support/log-reading.ts';

const folder = new URL('./logs/', import.meta.url);
const names = readdirSync(folder);
const readings = names.filter((name) => name.endsWith('.reading.txt'));

describe('the awkward logs', () => {
  it('are at least forty, and each has its reading', () => {
    expect(readings.length).toBeGreaterThanOrEqual(40);
    expect(names.length).toBe(2 * readings.length);
  });

  it.each(readings)('%s', (name) => {
    const { mapping, holds } = logReading(readFileSync(new URL(name, folder), 'utf8'));
    const base = name.replace('.reading.txt', '.');
    const file = names.find((each) => each.startsWith(base) && each !== name)!;
    holds(readLog(readFileSync(new URL(file, folder)), mapping));
  });
});
