/** How mishaps are said to the emulated board, and what it answers to what it does not know. */
import { describe, expect, it } from 'vitest';
import { mishapKinds } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import { emulate } from '../../../server/commands/emulate.ts';
import { readMishap } from '../../../server/commands/mishap-argument.ts';
import { demonstrationJoint } from '../../../server/commands/places.ts';
import { readDemonstrationJoint } from '../../../server/station/demonstration.ts';

const { probes } = readDemonstrationJoint(demonstrationJoint);

async function said(...args: string[]): Promise<{ status: number; text: string }> {
  const lines: string[] = [];
  const push = (line: string): void => void lines.push(line);
  const status = await emulate.run(args, { out: push, err: push });
  return { status, text: lines.join('\n') };
}

describe('a mishap as it is said', () => {
  it.each([
    ['open@zone A', { kind: 'open', channel: 1, fromSeconds: 0 }],
    ['detached:20@far B+10', { kind: 'detached', channel: 4, severity: 20, fromSeconds: 600 }],
    ['drift:-3.5@zone B+1.5-90', { kind: 'drift', channel: 2, severity: -3.5, fromSeconds: 90, untilSeconds: 5400 }],
    ['wrong-type:J@far A', { kind: 'wrong-type', channel: 3, wire: 'J', fromSeconds: 0 }],
    ['swapped:zone B@zone A+2', { kind: 'swapped', channel: 1, other: 2, fromSeconds: 120 }],
    [
      'arc-noise:500+20-40',
      { kind: 'arc-noise', channel: 'all', severity: 500, fromSeconds: 1200, untilSeconds: 2400 },
    ],
    ['ground-loop', { kind: 'ground-loop', channel: 'all', fromSeconds: 0 }],
    ['arc-noise@zone A', { kind: 'arc-noise', channel: 1, fromSeconds: 0 }],
  ])('%s', (text, mishap) => {
    expect(readMishap(text, probes)).toEqual({ mishap });
  });

  it.each([
    ['melted@zone A', 'there is no mishap "melted". There are: open, floating, short'],
    ['open', 'open asks for a probe: open@zone A. The probes are: zone A, zone B'],
    ['open@zone C', 'there is no probe "zone C". The probes are: zone A'],
    ['swapped:zone C@zone A', 'there is no probe "zone C"'],
    ['swapped@zone A', 'swapped asks for the other probe'],
    ['wrong-type:X@zone A', '"X" is no type of wire here: K, J'],
    ['drift:much@zone A', '"much" is not a number'],
    ['drift:5000@zone A', 'drift takes a severity from -100 to 100 K/h'],
    ['stuck:2@zone A', 'stuck takes no severity'],
    ['open@zone A+10-5', 'end after it has begun'],
    ['', 'is not of the form'],
  ])('%s is refused', (text, problem) => {
    const read = readMishap(text, probes);
    expect('problem' in read && read.problem).toContain(problem);
  });
});

describe('emulate', () => {
  it('names every kind of mishap in its help', async () => {
    const { status, text } = await said('--help');
    expect(status).toBe(0);
    for (const kind of mishapKinds) expect(text).toContain(`  ${kind}`);
  });

  it('says what is wrong before it opens anything', async () => {
    const wrong = await said('--mishap', 'melted@zone A');
    expect(wrong.status).toBe(3);
    expect(wrong.text).toContain('There are: open, floating');
    expect(wrong.text).toContain('--help');
    for (const touch of ['zone A', 'zone A+3', 'zone C+2-3', 'zone A+3-2', '+2-3'])
      expect((await said('--touch', touch)).text).toContain('PROBE+FROM-UNTIL');
    expect((await said('--arc', '5')).text).toContain('FROM-UNTIL');
    expect((await said('--arc', '9-5')).text).toContain('FROM-UNTIL');
  });
});
