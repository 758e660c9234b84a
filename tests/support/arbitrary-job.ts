/** Jobs that could have happened, for laws: readings with faults and gaps, acts now and minutes ago, lines sent again. */
import fc from 'fast-check';
import { type Instant, instant, milliCelsius } from '../../server/measure/quantity.ts';
import type { Act, Input } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { Quality, Scan, ScanValue } from '../../server/weld/scan.ts';
import { plainJoint } from './plain-joint.ts';
import { dayBegins } from './record.ts';

export interface Job {
  readonly joint: Joint;
  /** In the order of arrival. The first is the opening. */
  readonly inputs: readonly Input[];
  readonly end: Instant;
}

export const probeIds = ['Z1', 'Z2', 'O1', 'I1'] as const;
const uses = { Z1: 'zone', Z2: 'zone', O1: 'opposite face', I1: 'interpass' } as const;
export const periodMilliseconds = 1000;

/**
 * With `maxima` it also has every limit that may not be passed upwards; without, only the minimum. With `through` the
 * heat is followed through its plate, which is so thin that seconds tell, and the minimum is asked for all through.
 */
const jobJoint = (whileWelding: 'on' | 'off', face: 'front' | 'back', maxima: boolean, through: boolean): Joint =>
  plainJoint({
    id: 'job',
    heating: through
      ? { means: 'furnace', face, whileWelding, airCelsius: 20 }
      : { means: 'resistance pads', face, whileWelding },
    ...(through ? { parts: plainJoint().parts.map((part) => ({ ...part, thicknessMillimetres: 12 })) } : {}),
    procedure: {
      id: 'WPS-1',
      revision: '0',
      decisionRule: 'simple acceptance',
      preheatMinimumCelsius: 150,
      soakHoldMinutes: 1,
      maintenanceMinimumCelsius: 120,
      ...(through ? { throughThicknessHoldMinutes: 0.2 } : {}),
      ...(maxima ? { interpassMaximumCelsius: 250, highestCelsius: 300, evennessMaximumKelvin: 30 } : {}),
    },
    probes: probeIds.map((id, index) => ({
      id,
      board: 'board-1',
      channel: index + 1,
      thermocouple: 'K' as const,
      use: uses[id],
      place: {
        part: 'plate',
        side: index % 2 === 0 ? ('A' as const) : ('B' as const),
        face: 'front' as const,
        distanceMillimetres: id === 'I1' ? 10 : 75,
      },
    })),
  });

/** What happens in one stretch of a job: so many readings of one kind, then perhaps an act. */
interface Stretch {
  readonly scans: number;
  readonly celsius: readonly number[];
  readonly slopePerScan: number;
  readonly fault: { readonly probe: number; readonly quality: Exclude<Quality, 'good'> } | undefined;
  readonly silence: number;
  readonly act: Doing | undefined;
  /** The first scans of the stretch are sent again this many scans later. */
  readonly late: number;
}
type Doing =
  | 'heat on'
  | 'heat off'
  | 'start'
  | 'end'
  | 'contact'
  | 'acknowledge'
  | 'shelve'
  | 'unshelve'
  | 'start ago'
  | 'heat off ago';

const stretch: fc.Arbitrary<Stretch> = fc.record({
  scans: fc.integer({ min: 1, max: 40 }),
  celsius: fc.array(fc.integer({ min: 140, max: 310 }), { minLength: 4, maxLength: 4 }),
  slopePerScan: fc.integer({ min: -2, max: 2 }),
  fault: fc.option(
    fc.record({
      probe: fc.integer({ min: 0, max: 3 }),
      quality: fc.constantFrom('open', 'out of range', 'no reading', 'short to ground'),
    }),
    { nil: undefined, freq: 3 },
  ),
  silence: fc.constantFrom(0, 0, 0, 2, 5, 70),
  act: fc.option(
    fc.constantFrom<Doing[]>(
      'heat on',
      'heat off',
      'start',
      'end',
      'contact',
      'acknowledge',
      'shelve',
      'unshelve',
      'start ago',
      'heat off ago',
    ),
    { nil: undefined },
  ),
  late: fc.constantFrom(0, 0, 0, 3),
});

export const arbitraryJob: fc.Arbitrary<Job> = fc
  .record({
    whileWelding: fc.constantFrom('on' as const, 'off' as const),
    face: fc.constantFrom('front' as const, 'back' as const),
    stretches: fc.array(stretch, { minLength: 1, maxLength: 8 }),
    warm: fc.boolean(),
    maxima: fc.boolean(),
    through: fc.boolean(),
  })
  .map(({ whileWelding, face, stretches, warm, maxima, through }) =>
    jobOf(jobJoint(whileWelding, face, maxima, through), stretches, warm),
  );

function jobOf(joint: Joint, stretches: readonly Stretch[], warm: boolean): Job {
  const start = dayBegins;
  let now = start;
  let sequence = 0;
  let pass = 0;
  const inputs: Input[] = [
    {
      type: 'station',
      at: instant(start),
      event: {
        kind: 'opened',
        joint,
        source: { kind: 'measured', detail: 'law' },
        periodMilliseconds,
        openedBy: 'Ada',
        rules: 'law',
        station: 'law',
      },
    },
  ];
  for (const { scans, celsius, slopePerScan, fault, silence, act, late } of stretches) {
    now += silence * periodMilliseconds;
    let held: Scan[] = [];
    for (let count = 0; count < scans; count += 1) {
      now += periodMilliseconds;
      sequence += 1;
      // Half of the jobs are warm enough for all that comes after the minimum is reached.
      const values = probeIds.map((probe, index): ScanValue => {
        if (fault?.probe === index) return { probe, quality: fault.quality, raw: { form: 'none' } };
        const temperature = milliCelsius(
          (warm ? Math.max(151, celsius[index]!) : celsius[index]!) + slopePerScan * count,
        );
        return { probe, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } };
      });
      const scan: Scan = {
        board: 'board-1',
        boot: 1,
        sequence,
        ticks: now - start,
        measuredAt: instant(now),
        arrivedAt: instant(now),
        late: false,
        inputs: 0,
        values,
      };
      if (count < late) held.push({ ...scan, late: true });
      else inputs.push({ type: 'scan', scan });
      if (count >= 2 * late && held.length > 0) {
        for (const each of held) inputs.push({ type: 'scan', scan: { ...each, arrivedAt: instant(now) } });
        held = [];
      }
    }
    for (const each of held) inputs.push({ type: 'scan', scan: { ...each, arrivedAt: instant(now) } });
    if (act === undefined) continue;
    if (act.startsWith('start')) pass += 1;
    const body = actOf(act, String(act === 'end' ? Math.max(pass, 1) : pass), now, start);
    inputs.push({ type: 'act', at: instant(now), who: 'Ada', act: body });
  }
  return { joint, inputs, end: instant(now + 5 * periodMilliseconds) };
}

function actOf(doing: Doing, pass: string, now: number, start: number): Act {
  const ago = instant(Math.max(start + 1, now - 17_300));
  switch (doing) {
    case 'heat on':
      return { kind: 'heat', state: 'on' };
    case 'heat off':
      return { kind: 'heat', state: 'off' };
    case 'heat off ago':
      return { kind: 'heat', state: 'off', happenedAt: ago };
    case 'start':
      return { kind: 'pass start', pass, passKind: 'fill', welder: 'Bo' };
    case 'start ago':
      return { kind: 'pass start', pass, passKind: 'fill', welder: 'Bo', happenedAt: ago };
    case 'end':
      return { kind: 'pass end', pass };
    case 'contact':
      return {
        kind: 'contact reading',
        celsius: 200,
        instrument: 'hand thermometer',
        use: 'interpass',
        place: { part: 'plate', side: 'A', face: 'front', distanceMillimetres: 10 },
      };
    case 'acknowledge':
      return { kind: 'acknowledge', alarm: 'below minimum' };
    case 'shelve':
      return { kind: 'shelve', alarm: 'below minimum', minutes: 1, reason: 'the foreman knows' };
    case 'unshelve':
      return { kind: 'unshelve', alarm: 'below minimum' };
  }
}
