/**
 * The working page: the required preheat of a joint with everything that it rests on, for a coordinator to sign.
 * One page where it can be; the terms of every formula follow on the next. Pure; it can be read as text.
 */

import { soakRequired, soakRule } from '../../judgement/soak.ts';
import { unitsOf } from '../../measure/units.ts';
import { degrees } from '../../metallurgy/number.ts';
import { cautions } from '../../wording/cautions.ts';
import { lengthText } from '../../wording/length.ts';
import { governedText, minimumText } from '../../wording/requirement.ts';
import { soakAskedText } from '../../wording/soak.ts';
import { heatInputText, heatingText, hydrogenText, partText } from '../joint-words.ts';
import type { Block, PageModel } from '../page-model.ts';
import { besideMinimum } from './beside-minimum.ts';
import { methodTable } from './method-rows.ts';
import { type PaperFacts, sourceMarks } from './paper-facts.ts';
import { throughRows } from './through-rows.ts';
import { whatWentIn } from './what-went-in.ts';
import { workingTerms } from './working-terms.ts';

export function workingPage(facts: PaperFacts): PageModel {
  const { joint, explanation, standsIn, datedAt } = facts;
  const { requirement } = explanation;
  const { governing } = requirement;
  return {
    title: `Required preheat: ${joint.title}`,
    language: 'en',
    description: `Working of the required preheat of joint ${joint.id}`,
    setting: 'dense',
    head: {
      left: `Working of the required preheat, joint ${joint.id}`,
      marks: [...sourceMarks(facts), ...(governing.kind === 'none' ? ['NO MINIMUM YET'] : [])],
    },
    foot: standsIn,
    datedAt,
    above: [],
    sections: [
      {
        heading: 'Requirement',
        blocks: [
          {
            kind: 'figure',
            label: 'Minimum preheat',
            value: minimumText(requirement),
            reason: governedText(governing),
          },
          { kind: 'pairs', rows: jointRows(facts) },
          whatWentIn(requirement),
          methodTable(requirement),
          besideMinimum(facts),
          ...warningBlocks(facts),
          { kind: 'subheading', text: 'Cautions' },
          { kind: 'list', items: cautions.slice(0, 2) },
          {
            kind: 'signatures',
            lines: [
              { role: 'Worked out by', meaning: 'I entered these facts as the papers state them.' },
              {
                role: 'Coordinator',
                meaning: 'I have read the working with its flags and answer for the minimum used.',
              },
            ],
          },
        ],
      },
      workingTerms(facts),
    ],
  };
}

function jointRows({ joint }: PaperFacts): (readonly [string, string])[] {
  const units = unitsOf(joint);
  const { procedure, codeFloor } = joint;
  const place = [joint.title, `(${joint.id})`, joint.workshop, joint.drawing].filter((text) => text !== undefined);
  return [
    ['Joint', place.join(', ').replace(', (', ' (')],
    ['Type', `${joint.jointType}, process ${joint.process} (ISO 4063), code ${joint.codeSet ?? 'not chosen'}`],
    ['Parts', joint.parts.map((part) => partText(part, units)).join('\n')],
    ['Consumable', `${joint.consumable.designation ?? 'not named'}, diffusible hydrogen ${hydrogenText(joint)}`],
    ['Heat input', heatInputText(joint)],
    [
      'Restraint, weld',
      [
        `restraint ${joint.restraint ?? 'not stated'}`,
        `weld shape ${joint.weldShape ?? 'not stated'}`,
        `weld size ${joint.weldSizeMillimetres === undefined ? 'not stated' : lengthText(joint.weldSizeMillimetres, units)}`,
      ].join(', '),
    ],
    ['Heating', heatingText(joint)],
    ...(throughRows(joint).length === 0
      ? []
      : [
          ['Before the first pass', soakAskedText(soakRule(joint), soakRequired(joint))] as const,
          ...throughRows(joint),
        ]),
    [
      'Procedure',
      procedure === undefined
        ? 'none bound'
        : `${procedure.id}, revision ${procedure.revision}; minimum ${procedure.preheatMinimumCelsius === undefined ? 'not stated' : degrees(procedure.preheatMinimumCelsius, units)}`,
    ],
    ...(codeFloor === undefined
      ? []
      : [['Code floor', `${degrees(codeFloor.preheatMinimumCelsius, units)}, ${codeFloor.source}`] as const]),
  ];
}

const warningBlocks = ({ explanation: { requirement } }: PaperFacts): Block[] =>
  requirement.warnings.length === 0
    ? []
    : [
        { kind: 'subheading', text: 'Warnings' },
        {
          kind: 'list',
          items: requirement.warnings.map(
            ({ message, wantsAnswer }) => `${message}${wantsAnswer ? ' (wants an answer by a named person)' : ''}`,
          ),
        },
      ];
