/**
 * Each fault as the detection table does it: in three severities where it has any, the smallest such that it moves the
 * reading by three times its expanded uncertainty (9 K for type K wire and cable of class 1), and the names that count.
 */
import type { Mishap, MishapKind } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import type { SignKind } from '../../../server/suspicion/sign.ts';
import type { Stage } from './thermal-run.ts';

export interface Severity {
  readonly text: string;
  readonly mishap: Omit<Mishap, 'kind' | 'channel' | 'fromSeconds'> & { readonly channel?: Mishap['channel'] };
  /** What is not to be seen at this severity, and why. */
  readonly blind?: Partial<Readonly<Record<Stage, string>>>;
}

export interface Case {
  readonly kind: SignKind;
  readonly mishap: MishapKind;
  /** At a moment of the stage, or there from the first reading, which then is the stage's first. */
  readonly from: 'moment' | 'set-up';
  /** Names that count; what stands beside the own one can not be told from it. */
  readonly names: readonly SignKind[];
  /** Detected within so many seconds, where not otherwise said for the stage. */
  readonly within: number;
  readonly withinStage?: Partial<Readonly<Record<Stage, number>>>;
  readonly severities: readonly Severity[];
  /** Stages in which it is not to be seen whatever its severity, and why. */
  readonly blind?: Partial<Readonly<Record<Stage, string>>>;
}

const severity = (text: string, value: number | undefined, more: Partial<Severity['mishap']> = {}): Severity => ({
  text,
  mishap: { ...(value === undefined ? {} : { severity: value }), ...more },
});

/** Of a twin that reads something else all the while: several causes give the same difference. */
const apart: readonly SignKind[] = ['wrong-type', 'short', 'copper-extension', 'reversed-extension', 'drift'];
const noHeat = 'the heaters are off or held, and the tip is as warm as the part';
const noArc = 'no arc burns';

export const cases: readonly Case[] = [
  {
    kind: 'open',
    mishap: 'floating',
    from: 'moment',
    names: ['open'],
    within: 60,
    severities: [severity('wanders 9 K', 117), severity('wanders 25 K', 300), severity('wanders 80 K', 1000)],
  },
  {
    kind: 'open',
    mishap: 'open',
    from: 'moment',
    names: ['open'],
    within: 300,
    severities: [severity('one reading of 20 lost', 0.05), severity('one of 5', 0.2), severity('every other', 0.5)],
  },
  {
    kind: 'short',
    mishap: 'short',
    from: 'moment',
    names: ['short', ...apart],
    within: 180,
    severities: [
      severity('9 K lost at 155 °C (8 %)', 0.08),
      severity('half of the voltage', 0.5),
      severity('dead short at the head', 1),
    ],
  },
  {
    kind: 'dead-input',
    mishap: 'dead-input',
    from: 'moment',
    names: ['dead-input', 'short'],
    within: 60,
    severities: [severity('no voltage', undefined)],
  },
  {
    kind: 'stuck',
    mishap: 'stuck',
    from: 'moment',
    names: ['stuck'],
    within: 60,
    severities: [severity('last number repeated', undefined)],
  },
  {
    kind: 'reversed-terminal',
    mishap: 'reversed-terminal',
    from: 'set-up',
    names: ['reversed-terminal'],
    within: 60,
    withinStage: { heating: 900 },
    severities: [severity('legs crossed', undefined)],
  },
  ...(['reversed-extension', 'copper-extension'] as const).map(
    (kind): Case => ({
      kind,
      mishap: kind,
      from: 'set-up',
      names: ['reversed-extension', 'copper-extension', ...apart],
      within: 180,
      withinStage: { heating: 3000 },
      severities: (kind === 'reversed-extension' ? [7, 15, 30] : [11, 20, 40]).map((share) =>
        severity(`head ${share} K above the air for 100 K of the tip`, share),
      ),
    }),
  ),
  {
    kind: 'wrong-type',
    mishap: 'wrong-type',
    from: 'set-up',
    names: apart,
    within: 180,
    withinStage: { heating: 1500 },
    severities: [
      severity('T wire set to K', undefined, { wire: 'T' }),
      severity('N wire set to K', undefined, { wire: 'N' }),
      severity('J wire set to K', undefined, { wire: 'J' }),
    ],
  },
  {
    kind: 'detached',
    mishap: 'detached',
    from: 'moment',
    names: ['detached'],
    within: 120,
    severities: [
      severity('bead of 3 mm, 98 s', 98),
      severity('bead of 1.5 mm, 40 s', 40),
      severity('bead of 1 mm, 13 s', 13),
    ],
  },
  {
    kind: 'tip-on-heater',
    mishap: 'tip-on-heater',
    from: 'moment',
    names: ['tip-on-heater'],
    within: 120,
    severities: [
      { ...severity('9 K at full power', 9), blind: { soak: 'held at two fifths of the power, it is 4 K' } },
      severity('30 K at full power', 30),
      severity('100 K at full power', 100),
    ],
    blind: { welding: noHeat },
  },
  {
    kind: 'mains-alias',
    mishap: 'mains-alias',
    from: 'moment',
    names: ['mains-alias'],
    within: 240,
    severities: [severity('9 K', 370), severity('20 K', 820), severity('50 K', 2000)],
  },
  {
    kind: 'arc-noise',
    mishap: 'arc-noise',
    from: 'moment',
    names: ['arc-noise'],
    within: 240,
    severities: [severity('9 K', 370), severity('20 K', 820), severity('50 K', 2000)],
    blind: { heating: noArc, soak: noArc },
  },
  {
    kind: 'ground-loop',
    mishap: 'ground-loop',
    from: 'moment',
    names: ['ground-loop'],
    within: 400,
    severities: [severity('9 K', 740), severity('20 K', 1640), severity('50 K', 4000)],
    blind: { heating: noArc, soak: noArc },
  },
  {
    kind: 'swapped',
    mishap: 'swapped',
    from: 'set-up',
    names: ['swapped'],
    within: 120,
    withinStage: { heating: 1200 },
    severities: [
      {
        ...severity('with the other face', undefined, { other: 5 }),
        blind: { soak: 'the faces are even to 6 K', welding: 'the faces are even' },
      },
      { ...severity('with the air', undefined, { other: 8 }), blind: { welding: 'a pass has begun: not looked for' } },
    ],
  },
  {
    kind: 'drift',
    mishap: 'drift',
    from: 'moment',
    names: ['drift', ...apart],
    within: 1800,
    severities: [severity('18 K in an hour at 150 °C', 14), severity('36 K', 28), severity('90 K', 70)],
  },
  {
    kind: 'cold-junction-jump',
    mishap: 'cold-junction-jump',
    from: 'moment',
    names: ['cold-junction-jump'],
    within: 30,
    severities: [
      severity('9 K', 9, { channel: 'all' }),
      severity('20 K', 20, { channel: 'all' }),
      severity('-40 K', -40, { channel: 'all' }),
    ],
  },
  {
    kind: 'slow-poll',
    mishap: 'slow-poll',
    from: 'moment',
    names: ['slow-poll'],
    within: 120,
    severities: [severity('a new number each 2 s', 2), severity('each 5 s', 5), severity('each 20 s', 20)],
  },
  ...(['bus-zeros', 'bus-ones', 'bus-doubled'] as const).map(
    (kind): Case => ({
      kind,
      mishap: kind,
      from: 'moment',
      names: [kind],
      within: 30,
      severities:
        kind === 'bus-ones'
          ? [severity('flags passed on', 1), severity('flags dropped', 0)]
          : [severity('it is', undefined)],
    }),
  ),
];
