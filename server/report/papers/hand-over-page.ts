/** A joint handed over on one page: where it stands, what is open, how long it may stand, what comes next, and who signed. */
import { cautions } from '../../wording/cautions.ts';
import { handOverActText, handOverText } from '../../wording/hand-over.ts';
import { signedText } from '../../wording/signed.ts';
import { sourceMark, sourceText } from '../../wording/words.ts';
import { folded } from '../event-words.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, type PageModel, paragraph } from '../page-model.ts';
import { timesOf } from '../paper.ts';

export function handOverPage(facts: ReportFacts): PageModel {
  const { joint, source, head, assessment, lastAt } = facts;
  const times = timesOf(facts);
  const mark = sourceMark(source);
  const { stands, open, howLong, next } = handOverText(assessment);
  const list = (heading: string, items: readonly string[], none: string): Block[] => [
    { kind: 'subheading', text: heading },
    items.length === 0 ? paragraph(none) : { kind: 'list', items: items.map(folded) },
  ];
  const [last] = facts.timeline
    .flatMap(({ input }) => (input.type === 'act' && input.act.kind === 'hand-over' ? [{ input, act: input.act }] : []))
    .slice(-1);
  return {
    title: `Hand-over: ${joint.title}`,
    language: 'en',
    description: `Hand-over of joint ${joint.id}`,
    setting: 'dense',
    head: { left: `Hand-over, joint ${joint.id}`, marks: mark === undefined ? [] : [mark.toUpperCase()] },
    foot: `Record ${joint.id}, entry ${head.seq}, head ${head.hash.slice(0, 16)}`,
    datedAt: lastAt,
    above: [],
    sections: [
      {
        heading: `As the record stands at ${times.full(lastAt)}`,
        blocks: [
          paragraph(sourceText(source)),
          ...list('Where it stands', stands, ''),
          ...list('What is open', open, 'Nothing that the judge knows of.'),
          ...list('How long it may stand', howLong, 'That cannot be told.'),
          ...list('What comes next', next, 'Nothing more is asked for.'),
          ...list(
            'Last handed over',
            last === undefined
              ? []
              : [`${times.full(last.input.at)}: ${signedText(last.input)}. ${handOverActText(last.act)}`],
            'No hand-over is entered yet.',
          ),
          { kind: 'subheading', text: 'Cautions' },
          { kind: 'list', items: cautions.slice(0, 2) },
          {
            kind: 'signatures',
            lines: [
              { role: 'Hands over', meaning: 'I have said what I know of this joint beyond what stands here.' },
              { role: 'Takes over', meaning: 'I have read this and looked at the joint.' },
            ],
          },
        ],
      },
    ],
  };
}
