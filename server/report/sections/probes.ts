/** Where the temperatures were taken: section and plan to scale, the probes in a table, the boards that read them. */
import type { ProbeStatus } from '../../judgement/probe-status.ts';
import { type MilliCelsius, milliCelsius } from '../../measure/quantity.ts';
import type { UnitSystem } from '../../measure/units.ts';
import { instrumentCode, uncertaintyText } from '../../wording/instrument.ts';
import { temperatureText } from '../../wording/temperature.ts';
import { placeText, qualityText, useText } from '../../wording/words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';
import { planPicture, sectionPicture } from '../set-up/set-up.ts';
import { ambientBlocks } from './ambient.ts';
import { instrumentBlocks } from './instruments.ts';

export const probesSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Probes and set-up',
  blocks: [
    sectionPicture(facts.joint, size),
    planPicture(facts.joint, { ...size, heightMost: 160 }),
    probeTable(facts, times),
    boardTable(facts, times),
    ...ambientBlocks(facts, times),
    ...(facts.assessment.instruments === undefined ? [paragraph(calibration)] : instrumentBlocks(facts)),
  ],
});

const calibration =
  'Calibration: no calibration of thermocouples or instruments is entered in this record. The readings stand as the instruments gave them.';

const size = { width: 511, heightMost: 120, letters: 7 };

const probeTable = (facts: ReportFacts, times: Times): Block => ({
  kind: 'table',
  caption: 'Probes',
  columns: [
    { heading: 'Probe', share: 4 },
    { heading: 'Answers for', share: 4 },
    { heading: 'Place', share: 8 },
    { heading: 'Type, code, tip held by', share: 5 },
    { heading: 'Board, channel', share: 5 },
    { heading: 'Lowest', share: 3, align: 'right' },
    { heading: 'Highest', share: 3, align: 'right' },
    { heading: 'At the end', share: 6 },
  ],
  rows: facts.joint.probes.map((probe) => {
    const extremes = extremesOf(facts, probe.id);
    const status = facts.assessment.probes.find((each) => each.probe === probe.id);
    return [
      probe.id,
      useText(probe.use),
      probe.place === undefined ? 'not stated' : `${probe.place.part}: ${placeText(probe.place, unitsOf(facts))}`,
      `${probe.thermocouple}, ${instrumentCode.thermocouple}, ${probe.attachedBy ?? (probe.place === undefined ? 'in the air' : 'not stated')}`,
      `${probe.board}, ${probe.channel}`,
      extremes === undefined ? 'none' : temperatureText(extremes.lowest, unitsOf(facts), beside(facts)),
      extremes === undefined ? 'none' : temperatureText(extremes.highest, unitsOf(facts), beside(facts)),
      atTheEnd(status, facts, times),
    ];
  }),
  empty: 'No probe was fitted.',
});

const unitsOf = ({ assessment }: ReportFacts): UnitSystem => assessment.requirement.units;

const beside = ({ assessment }: ReportFacts): { limit: readonly MilliCelsius[] } => ({
  limit: [assessment.limits.preheatMinimum, assessment.limits.interpassMaximum, assessment.limits.highest].filter(
    (limit) => limit !== undefined,
  ),
});

const extremesOf = ({ history }: ReportFacts, probe: string) => {
  const steps = history.series.find((each) => each.probe === probe)?.steps ?? [];
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (const [, first, minimum, maximum] of steps) {
    if (first === null || minimum === undefined || maximum === undefined) continue;
    lowest = Math.min(lowest, minimum);
    highest = Math.max(highest, maximum);
  }
  return lowest > highest ? undefined : { lowest: milliCelsius(lowest / 1000), highest: milliCelsius(highest / 1000) };
};

const atTheEnd = (status: ProbeStatus | undefined, facts: ReportFacts, times: Times): string => {
  if (status?.quality === undefined || status.measuredAt === undefined) return 'no reading ever came';
  const value =
    status.temperature === undefined
      ? qualityText(status.quality)
      : `${temperatureText(status.temperature, unitsOf(facts), beside(facts))}${width(status, facts)}`;
  return `${value}, ${times.when(status.measuredAt)}`;
};

const width = ({ expandedUncertainty }: ProbeStatus, facts: ReportFacts): string =>
  expandedUncertainty === undefined ? '' : ` \u00B1${uncertaintyText(expandedUncertainty, unitsOf(facts))}`;

const boardTable = ({ timeline }: ReportFacts, times: Times): Block => ({
  kind: 'table',
  caption: 'Boards that read them',
  columns: [
    { heading: 'Board', share: 4 },
    { heading: 'Firmware, or how it is read', share: 4 },
    { heading: 'Boot', share: 2, align: 'right' },
    { heading: 'Port', share: 5 },
    { heading: 'Says of itself', share: 5 },
    { heading: 'Seen', share: 4 },
  ],
  rows: timeline.flatMap(({ input }) =>
    input.type === 'station' && input.event.kind === 'board'
      ? [
          [
            input.event.board,
            input.event.firmware,
            input.event.connection === undefined ? `${input.event.boot}` : '',
            input.event.port,
            input.event.connection !== undefined
              ? 'nothing: it was connected as described'
              : input.event.simulated
                ? 'an emulator: not a measurement'
                : 'hardware',
            times.when(input.at),
          ],
        ]
      : [],
  ),
  empty: 'No board has named itself in this record.',
});
