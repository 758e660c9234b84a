/**
 * Two real logs with faulty thermocouples among sound ones, published by the NIST Fire Research Division (firemodels/exp at
 * 39d8b735870826430a69cfb95681db67cfd36bbf; free to copy with its notice): every sensor that the logs' note of provenance
 * names as bad is named, with a kind that fits, and none of the others. The files are not part of this repository.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { judge } from '../../server/commands/judge.ts';
import type { Finding } from '../../server/judgement/assessment.ts';
import { judgeAll } from '../../server/judgement/judge.ts';
import { probeTroubles } from '../../server/judgement/probe-watch.ts';
import { openRecordReadOnly } from '../../server/record/read.ts';
import { type Joint, jointSchema } from '../../server/weld/joint.ts';
import type { Scan } from '../../server/weld/scan.ts';
import { readLog } from '../../server/wire/log-file.ts';
import { opening } from '../support/judged-voltages.ts';
import { plainJoint, plainPart } from '../support/plain-joint.ts';
import { temporaryFolder } from '../support/record.ts';

const folder = new URL('../../../shared/data/', import.meta.url);

describe.each([
  {
    log: 'nist-wtc-p1t5-steel-columns-and-bar.csv',
    periodSeconds: 10,
    wanted: /./,
    // Missing in half of all rows; alive in 92 rows only; runs away; never believable.
    bad: {
      TCU1S: /silent|intermittent/,
      TB1S: /silent|intermittent|out of range/,
      TB4S: /running away|out of range/,
      bad_1: /out of range/,
      bad_2: /out of range/,
      bad_3: /out of range/,
      bad_4: /out of range/,
      bad_5: /out of range/,
    } as Record<string, RegExp>,
  },
  {
    log: 'nist-e119-compartment-test-1.csv',
    periodSeconds: 15,
    wanted: /^BeamTC/,
    // Erratic with jumps; three jumps of 90 to 100 degrees; at 13 to 17 degrees while the beam reaches 526.
    bad: { BeamTC3: /open/, BeamTC5: /open/, BeamTC8: /dead-input/ } as Record<string, RegExp>,
  },
])('$log', ({ log: name, periodSeconds, wanted, bad }) => {
  const file = new URL(name, folder);
  const is = existsSync(file);

  it.skipIf(!is)('names the bad ones, and no other (skipped: where the log is absent)', () => {
    const bytes = readFileSync(file);
    const names = bytes.toString('utf8').split(/\r?\n/)[0]!.split(',').slice(1);
    const joint = jointOf(names.filter((each) => wanted.test(each)));
    const log = readLog(bytes, {
      probes: joint.probes,
      unit: 'C',
      leaveOut: names.filter((each) => !wanted.test(each)),
    });
    expect(log.problems).toEqual([]);
    const start = log.firstAt!;
    const scans = [...log.scans].map((scan): Scan => ({ ...scan, arrivedAt: scan.measuredAt }));
    const first = { ...opening(joint, periodSeconds * 1000), at: start } as never;
    const { findings } = judgeAll([first, ...scans.map((scan) => ({ type: 'scan', scan }) as const)]).assessment;
    const told = findings.filter(({ kind }) => kind === 'probe suspect' || probeTroubles.has(kind));
    for (const [probe, kind] of Object.entries(bad)) {
      const kinds = told.filter((each) => each.probe === probe).map(nameOf);
      expect(kinds.join(', '), probe).toMatch(kind);
    }
    const sound = told.filter(({ probe }) => !(probe !== undefined && probe in bad));
    expect(sound.map((each) => `${each.probe}: ${nameOf(each)} ${JSON.stringify(each.seen ?? {})}`)).toEqual([]);
  });
});

const e119 = new URL('nist-e119-compartment-test-1.csv', folder);

it.skipIf(!existsSync(e119))(
  'a real log is judged by the command and kept (skipped: where the log is absent)',
  async () => {
    const home = temporaryFolder();
    const names = readFileSync(e119, 'utf8').split(/\r?\n/)[0]!.split(',').slice(1);
    const isBeam = (name: string): boolean => name.startsWith('BeamTC');
    const joint = join(home, 'joint.json');
    writeFileSync(joint, JSON.stringify(jointOf(names.filter(isBeam))));
    const leftOut = names.filter((each) => !isBeam(each)).flatMap((each) => ['--leave-out', each]);
    const out: string[] = [];
    const status = await judge.run(
      [
        joint,
        fileURLToPath(e119),
        ...leftOut,
        '--json',
        '--keep',
        join(home, 'record'),
        '--begin',
        '--who',
        'Runa Teld',
      ],
      { out: (text) => out.push(text), err: () => undefined },
    );
    expect(status).toBe(2);
    const told: { kind: string; probe: string | null }[] = JSON.parse(out.join('')).findings;
    for (const probe of ['BeamTC3', 'BeamTC5', 'BeamTC8']) expect(told.some((each) => each.probe === probe)).toBe(true);
    const reader = openRecordReadOnly(join(home, 'record'));
    const again = judgeAll(reader.inputs('plain')).assessment;
    expect(again.findings.map(({ kind, probe }) => ({ kind, probe: probe ?? null }))).toEqual(
      told.map(({ kind, probe }) => ({ kind, probe })),
    );
    expect(reader.importedFiles()[0]?.file).toMatchObject({
      rows: 144,
      passedOver: [{ line: 2, message: 'a row of units' }],
    });
    reader.close();
  },
);

const nameOf = ({ kind, sign }: Finding): string => sign ?? kind;

/** All on steel that the heat comes to from around, each at a place of its own. */
const jointOf = (names: readonly string[]): Joint =>
  jointSchema.parse({
    ...plainJoint(),
    parts: [plainPart({ id: 'steel', thicknessMillimetres: 20 })],
    heating: { means: 'furnace', face: 'both', whileWelding: 'off', airCelsius: 15 },
    probes: names.map((id, index) => ({
      id,
      board: index < 16 ? 'log-1' : 'log-2',
      channel: (index % 16) + 1,
      thermocouple: 'K',
      use: 'zone',
      place: { part: 'steel', side: index % 2 === 0 ? 'A' : 'B', face: 'front', distanceMillimetres: 50 + 50 * index },
    })),
  });
