/**
 * The set-up card: one page to hang on the part. The limits in large figures, the wait, where the probes sit, whom
 * to call, and a code that leads to the joint's page. Pure; it can be read as text.
 */

import { limitsOf } from '../../judgement/limits-of.ts';
import { soakRequired, soakRule } from '../../judgement/soak.ts';
import type { MilliCelsius } from '../../measure/quantity.ts';
import { type UnitSystem, unitsOf } from '../../measure/units.ts';
import { plain } from '../../metallurgy/number.ts';
import { cautions } from '../../wording/cautions.ts';
import { minimumText } from '../../wording/requirement.ts';
import { soakAskedText } from '../../wording/soak.ts';
import { limitText } from '../../wording/temperature.ts';
import { placeText, useText } from '../../wording/words.ts';
import { heatingText } from '../joint-words.ts';
import { type Block, type PageModel, paragraph } from '../page-model.ts';
import { planPicture, sectionPicture } from '../set-up/set-up.ts';
import { jointCode } from './joint-code.ts';
import type { PaperFacts } from './paper-facts.ts';

export function setUpCard(facts: PaperFacts): PageModel {
  const { joint, standsIn, datedAt } = facts;
  return {
    title: joint.title,
    language: 'en',
    description: `Set-up card of joint ${joint.id}`,
    setting: 'card',
    head: { left: `Set-up card, joint ${joint.id}`, marks: ['HANG ON THE PART'] },
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

const drawings = ({ joint }: PaperFacts): Block[] => [
  sectionPicture(joint, { width: 511, heightMost: 92, letters: 7 }),
  planPicture(joint, { width: 511, heightMost: 104, letters: 7 }),
];

/** Two probes a row, so that sixteen leave room for the drawing. */
function probeBlocks({ joint }: PaperFacts): Block[] {
  const units = unitsOf(joint);
  const cells = joint.probes.map(({ id, use, board, channel, thermocouple, place }) => [
    id,
    [useText(use), place === undefined ? 'no place stated' : placeText(place, units)].join(', '),
    `${board}, ${channel}, type ${thermocouple}`,
  ]);
  const half = Math.ceil(cells.length / 2);
  const columns = ['Probe', 'Answers for, place', 'Wire'].map((heading, index) => ({
    heading,
    share: [2, 7, 4][index]!,
  }));
  return [
    {
      kind: 'table',
      caption: 'Probes; distances from the edge of the groove',
      columns: [...columns, ...columns],
      rows: cells.slice(0, half).map((row, index) => [...row, ...(cells[half + index] ?? ['', '', ''])]),
      empty: 'No probe is planned.',
    },
  ];
}

function call({ joint, address }: PaperFacts): Block {
  const who = joint.contact ?? 'not stated: write a name and a number here before the card is hung up';
  if (address === undefined) return paragraph(who, 'strong');
  return {
    kind: 'code',
    svg: jointCode(address),
    alternative: `QR code of the address ${address}`,
    headline: who,
    lines: ['This joint, live and with its record:', address, ...(isOwnMachine(address) ? [ownMachine] : [])],
  };
}

const ownMachine =
  'This address leads there from the station\u2019s own computer only. For a card that a telephone can read, open the station by its name on the network and print again.';

const isOwnMachine = (address: string): boolean =>
  ['localhost', '127.0.0.1', '[::1]'].includes(new URL(address).hostname);
