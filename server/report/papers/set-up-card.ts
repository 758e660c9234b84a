/**
 * The set-up card: one page to hang on the part. The limits in large figures, the wait, where the probes sit, whom
 * to call, and a code that leads to the joint's page. Pure; it can be read as text.
 */

import { limitsOf } from '../../judgement/limits-of.ts';
import { soakRequired, soakRule } from '../../judgement/soak.ts';
import type { MilliCelsius } from '../../measure/quantity.ts';
import { type UnitSystem, unitsOf } from '../../measure/units.ts';
import { plain } from '../../metallurgy/number.ts';
import type { Probe } from '../../weld/probe.ts';
import { cautions } from '../../wording/cautions.ts';
import { minimumText } from '../../wording/requirement.ts';
import { soakAskedText } from '../../wording/soak.ts';
import { limitText } from '../../wording/temperature.ts';
import { placeText, useText } from '../../wording/words.ts';
import { heatingText } from '../joint-words.ts';
import { type Block, type PageModel, paragraph } from '../page-model.ts';
import { planPicture, sectionPicture } from '../set-up/set-up.ts';
import { squareCode } from '../square-code.ts';
import { type PaperFacts, sourceMarks } from './paper-facts.ts';
import { throughRows } from './through-rows.ts';

export function setUpCard(facts: PaperFacts): PageModel {
  const { joint, standsIn, datedAt } = facts;
  return {
    title: joint.title,
    language: 'en',
    description: `Set-up card of joint ${joint.id}`,
    setting: 'card',
    head: { left: `Set-up card, joint ${joint.id}`, marks: [...sourceMarks(facts), 'HANG ON THE PART'] },
    foot: standsIn,
    datedAt,
    above: [],
    sections: [
      { heading: 'Limits', blocks: [limitFigures(facts), ...waitBlocks(facts)] },
      { heading: 'Where to measure', blocks: [...drawings(facts), ...probeBlocks(facts)] },
      { heading: 'Whom to call', blocks: [call(facts)] },
      { heading: 'Cautions', blocks: [{ kind: 'list', items: cautions }] },
    ],
  };
}

function limitFigures({ joint, explanation: { requirement } }: PaperFacts): Block {
  const limits = limitsOf(joint, requirement);
  const of = (label: string, limit: MilliCelsius | undefined) => ({ label, value: statedText(limit, unitsOf(joint)) });
  return {
    kind: 'limits',
    items: [
      { label: 'Minimum preheat', value: minimumText(requirement) },
      of('Maximum interpass', limits.interpassMaximum),
      of('Keep in breaks, at least', limits.maintenanceMinimum),
      ...(limits.highest === undefined ? [] : [of('Highest anywhere', limits.highest)]),
    ],
  };
}

const statedText = (limit: MilliCelsius | undefined, units: UnitSystem): string =>
  limit === undefined ? 'not stated' : limitText(limit, units);

function waitBlocks({ joint, explanation: { afterWelding } }: PaperFacts): Block[] {
  const { waiting, postHeating } = afterWelding;
  return [
    {
      kind: 'pairs',
      rows: [
        ['Heating', heatingText(joint)],
        ['Before the first pass', soakAskedText(soakRule(joint), soakRequired(joint))],
        ...throughRows(joint),
        ...(postHeating === undefined
          ? []
          : [
              [
                'After the last pass',
                `post-heating ${statedText((postHeating.celsius * 1000) as MilliCelsius, unitsOf(joint))}, ${plain(postHeating.hours)} h`,
              ] as const,
            ]),
        ...(waiting.kind === 'waits' && waiting.hours > 0
          ? [
              [
                'Before the last test',
                `${plain(waiting.hours)} h from the end of welding (${waiting.edition})`,
              ] as const,
            ]
          : []),
      ],
    },
  ];
}

const drawings = ({ joint }: PaperFacts): Block[] => {
  const isFew = joint.probes.length <= few;
  const height = isFew ? 80 : 50;
  const letters = isFew ? 7 : 6;
  return [
    sectionPicture(joint, { width: 511, heightMost: height, letters }),
    planPicture(joint, { width: 511, heightMost: height + 12, letters }),
  ];
};

/** Up to so many probes their places stand in the table too; of more they stand in the drawing alone, to keep to one page. */
const few = 6;

function probeBlocks({ joint }: PaperFacts): Block[] {
  const isFew = joint.probes.length <= few;
  const across = isFew ? 2 : 3;
  const cells = joint.probes.map((probe) => cellOf(probe, isFew, unitsOf(joint)));
  const down = Math.ceil(cells.length / across);
  const columns = [
    { heading: 'Probe', share: 2 },
    { heading: isFew ? 'Answers for, place' : 'Answers for', share: isFew ? 7 : 4 },
    { heading: 'Board, channel, type', share: 4 },
  ];
  return [
    {
      kind: 'table',
      caption: 'Probes; distances from the edge of the groove',
      columns: Array.from({ length: across }, () => columns).flat(),
      rows: Array.from({ length: down }, (_, row) =>
        Array.from({ length: across }, (_, column) => cells[column * down + row] ?? ['', '', '']).flat(),
      ),
      empty: 'No probe is planned.',
    },
  ];
}

const cellOf = ({ id, use, board, channel, thermocouple, place }: Probe, withPlace: boolean, units: UnitSystem) => [
  id,
  place === undefined
    ? `${useText(use)}, no place stated`
    : [useText(use), ...(withPlace ? [placeText(place, units)] : [])].join(', '),
  `${board}, ${channel}, ${thermocouple}`,
];

function call({ joint, address }: PaperFacts): Block {
  const who = joint.contact ?? 'not stated: write a name and a number here before the card is hung up';
  if (address === undefined) return paragraph(who, 'strong');
  return {
    kind: 'code',
    svg: squareCode(address),
    alternative: `QR code of the address ${address}`,
    headline: who,
    lines: ['This joint, live and with its record:', address, ...(isOwnMachine(address) ? [ownMachine] : [])],
  };
}

const ownMachine =
  'This address leads there from the station\u2019s own computer only. For a card that a telephone can read, open the station by its name on the network and print again.';

const isOwnMachine = (address: string): boolean =>
  ['localhost', '127.0.0.1', '[::1]'].includes(new URL(address).hostname);
