/** The fast part of the detection table (DETECTION.md): each fault in its smallest severity by two seeds, and a few sound runs. */
import { describe, expect, it } from 'vitest';
import { cases } from '../../support/detection/cases.ts';
import { healthyRuns } from '../../support/detection/healthy.ts';
import { beginningsOf, rowOf, stages } from '../../support/detection/table.ts';
import { thermalRun } from '../../support/detection/thermal-run.ts';

const seeds = [11, 12];
const run = thermalRun({ seed: 7 });
const beginnings = new Map(seeds.map((seed) => [seed, beginningsOf(run, seed)]));

describe.each(cases)('$kind by $mishap', (fault) => {
  const [severity] = fault.severities;
  const seen = stages.filter((stage) => (severity!.blind?.[stage] ?? fault.blind?.[stage]) === undefined);
  it.each(seen)(`${severity!.text}, %s`, (stage) => {
    const row = rowOf(run, seeds, beginnings, { case: fault, severity: severity!, stage });
    expect(row.detected).toBe(seeds.length);
    expect([...row.falseNames]).toEqual([]);
  });
});

it('names no probe of sound jobs', () => expect(healthyRuns(4, 900).told).toEqual([]));
