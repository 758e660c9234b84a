/** Every pass: what was measured when it began and while it ran, what it was welded with, and what was put right since. */
import type { PassStatus } from '../../judgement/pass-status.ts';
import { rules } from '../../judgement/rules.ts';
import type { MilliCelsius } from '../../measure/quantity.ts';
import { handValueText } from '../../wording/instrument.ts';
import { correctionText, countedText, detailTexts, passHeatText, roundsText, windowText } from '../../wording/pass.ts';
import { heatChart, staircase } from '../../wording/pass-chart.ts';
import { durationText } from '../../wording/time.ts';
import { conditionName } from '../../wording/words.ts';
import { passChartSvg } from '../chart/pass-chart-svg.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import type { Times } from '../paper.ts';

export const passesSection = (facts: ReportFacts, times: Times): Section => ({
  heading: 'Passes',
  blocks: [
    passTable(facts, times),
    ...rounds(facts, times),
    ...corrections(facts, times),
    paragraph(reading, 'small'),
    weldedTable(facts),
    ...charts(facts),
  ],
});

const reading = `Minimum: every required place at or above the minimum preheat when the pass began and while it ran. Maximum: the interpass reading at or below its maximum when the pass began, taken at most ${durationText(rules.interpassReadingAge)} before the arc, or by hand at most ${durationText(rules.contactReadingAge)} before. Passes that began earlier than they were entered carry both times and are judged at the earlier.`;

const passTable = ({ assessment }: ReportFacts, times: Times): Block => {
  const { preheatMinimum, interpassMaximum } = assessment.limits;
  const temperature = (
    value: (Parameters<typeof handValueText>[0] & { readonly probe: string }) | undefined,
    limit: MilliCelsius | undefined,
  ): string =>
    value === undefined ? 'none' : `${handValueText(value, assessment.requirement.units, { limit })} ${value.probe}`;
  return {
    kind: 'table',
    caption: 'Each pass as judged',
    columns: [
      { heading: 'Pass', share: 4 },
      { heading: 'Welder, place', share: 7 },
      { heading: 'Arc', share: 9 },
      { heading: 'Coldest at start', share: 6 },
      { heading: 'Coldest during', share: 6 },
      { heading: 'Interpass at start', share: 6 },
      { heading: 'Hottest during', share: 6 },
      { heading: 'Minimum', share: 6 },
      { heading: 'Maximum', share: 5 },
    ],
    rows: assessment.passes.map((pass) => [
      `${pass.pass}\n${pass.passKind}`,
      placeOf(pass),
      arc(pass, times),
      temperature(pass.coldestAtStart, preheatMinimum),
      temperature(pass.coldestDuring, preheatMinimum),
      pass.interpass === undefined
        ? 'none'
        : `${handValueText(pass.interpass, assessment.requirement.units, { limit: interpassMaximum })} ${pass.interpass.probe}${pass.interpass.by === 'contact' ? ' (by hand)' : ''}`,
      temperature(pass.hottestDuring, interpassMaximum),
      [
        pass.minimum,
        ...(pass.outside.length === 0 ? [] : [`began outside: ${pass.outside.map(outside).join(', ')}`]),
      ].join('\n'),
      pass.maximum,
    ]),
    empty: 'No pass was entered.',
  };
};

/** What each pass was welded with, and the energy that it brought. */
const weldedTable = ({ assessment, joint }: ReportFacts): Block => {
  const { units } = assessment.requirement;
  const window = joint.procedure?.heatInput;
  const caption = `Welded with. ${window === undefined ? 'The procedure states no window of heat input' : windowText(window, units)}`;
  return {
    kind: 'table',
    caption,
    columns: [
      { heading: 'Pass', share: 3 },
      { heading: 'Layer, side, process', share: 8 },
      { heading: 'Consumable', share: 6 },
      { heading: 'As entered', share: 8 },
      { heading: countedText(window?.counted ?? 'heat input'), share: 6 },
      { heading: 'Worked out', share: 16 },
    ],
    rows: assessment.passes.map(({ pass, details, heat }) => {
      const { layer, side, where, batch, process: own, ...run } = details;
      const setUp = { layer, side, where, process: own ?? joint.process };
      return [
        pass,
        detailTexts(setUp, units).join(', '),
        batch ?? 'not entered',
        detailTexts(run, units).join(', ') || 'nothing',
        passHeatText(heat, units),
        heat.words ?? '',
      ];
    }),
    empty: 'No pass was entered.',
  };
};

/** Of continuous welding: what was read ahead of the arc while it went on. */
const rounds = ({ assessment }: ReportFacts, times: Times): Block[] => {
  const { limits, requirement } = assessment;
  const items = assessment.passes.flatMap(({ pass, rounds: list = [] }) =>
    list.length === 0
      ? []
      : [`Pass ${pass}. ${roundsText(list, limits.interpassMaximum, requirement.units, times.when)}`],
  );
  if (items.length === 0) return [];
  return [
    { kind: 'subheading', text: 'Interpass within continuous passes' },
    { kind: 'list', items },
  ];
};

/** Slips that were put right: both stand here, with the judgement of then. */
const corrections = ({ assessment }: ReportFacts, times: Times): Block[] => {
  const { units } = assessment.requirement;
  const items = [
    ...assessment.passes.flatMap(({ pass, corrections: list = [] }) =>
      list.map((each) => ({ name: `Pass ${pass}`, each })),
    ),
    ...(assessment.struckPasses ?? []).flatMap(({ pass, passKind, welder, startedAt, corrections: list }) =>
      list.map((each) => ({ name: `Pass ${pass} (${passKind}, ${welder}, begun ${times.when(startedAt)})`, each })),
    ),
  ].map(({ name, each }) => `${name}. ${correctionText(each, units, times.when)}`);
  return items.length === 0
    ? []
    : [
        { kind: 'subheading', text: 'Put right after entry' },
        { kind: 'list', items },
      ];
};

const charts = ({ assessment, joint }: ReportFacts): Block[] => {
  const { passes, limits, requirement } = assessment;
  // A few columns need no whole width, and their figures are then as large as those of the other charts.
  const share = passes.length <= 12 ? 62 : 100;
  return [
    staircase(passes, limits, requirement.units, 500),
    heatChart(passes, joint.procedure?.heatInput, requirement.units, 500),
  ].flatMap((chart): Block[] =>
    chart === undefined
      ? []
      : [{ kind: 'picture', svg: passChartSvg(chart), alternative: chart.spoken, caption: chart.title, share }],
  );
};

const outside = (id: PassStatus['outside'][number]): string => conditionName(id).toLowerCase();

const placeOf = ({ welder, details: { side, where } }: PassStatus): string =>
  [welder, side === undefined ? undefined : `side ${side}`, where].filter((text) => text !== undefined).join('\n');

const arc = ({ startedAt, enteredAt, endedAt }: PassStatus, times: Times): string =>
  [
    endedAt === undefined ? `${times.when(startedAt)}\nend not entered` : times.span(startedAt, endedAt),
    ...(enteredAt > startedAt ? [`entered ${times.when(enteredAt)}`] : []),
  ].join('\n');
