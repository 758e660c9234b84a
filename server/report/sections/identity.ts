/** Which record this is: the head to be taken along, the key that signed it, and what an authority outside stamped of it. */
import { signedHeadText } from '../../ledger/head-text.ts';
import { instant } from '../../measure/quantity.ts';
import type { SeenStamp } from '../../proof/stamps.ts';
import { noStamp, stampFaultText, stampMeaning } from '../../wording/stamp.ts';
import { instantText } from '../../wording/time.ts';
import type { ReportFacts } from '../facts.ts';
import { type Block, paragraph, type Section } from '../page-model.ts';
import { squareCode } from '../square-code.ts';

/** The head to be taken along, as text and as a code, and the name of the key that signed it. */
const headBlocks = (head: ReportFacts['head']): Block[] => {
  const text = signedHeadText(head);
  return [
    {
      kind: 'code',
      svg: squareCode(text),
      alternative: 'QR code of the head of the record, the text below',
      headline: head.signature === undefined ? 'Head of the record' : 'Signed head of the record',
      lines: ['Scan or photograph it and keep it. The command verify takes its text after --head.'],
    },
    { kind: 'mono', label: 'Head', text },
    ...(head.fingerprint === undefined
      ? []
      : [{ kind: 'mono', label: 'Key that signed it, fingerprint', text: head.fingerprint } as const]),
  ];
};

export const identitySection = ({ head, entries, joint, stamps }: ReportFacts): Section => {
  const heading = 'Identity of the record';
  if (head.hash === '') {
    const words = `An imported log of joint ${joint.id}: it stands on no record of this program, so no hash can show that it is as it was made.`;
    return { heading, blocks: [paragraph(words)] };
  }
  const blocks: Block[] = [
    {
      kind: 'pairs',
      rows: [
        ['Record', joint.id],
        ['Entries', `${entries}`],
        ['Newest entry', `${head.seq}`],
      ],
    },
    { kind: 'mono', label: 'Head hash', text: head.hash },
    ...headBlocks(head),
    paragraph(
      'The head hash stands for every entry up to the newest named here. Whoever later verifies the record must find this hash at this entry; another hash means another record. It proves something only while it is kept where whoever keeps the record cannot change it, as on this paper.',
      'small',
    ),
    paragraph(
      head.signature === undefined
        ? 'NOT SIGNED: this record was written without a key. Whoever can write to it could have made it anew.'
        : "Whoever holds the station's key can rewrite the record until a head of it has left the house. Keep this paper, or a photo of the code, in other hands.",
      'strong',
    ),
    ...stampBlocks(stamps, head.seq),
  ];
  // A few stamps go with it on one page.
  return stamps.length > 3 ? { heading, blocks } : { heading, whole: true, blocks };
};

const stampBlocks = (stamps: readonly SeenStamp[], newest: number): Block[] =>
  stamps.length === 0
    ? [paragraph(noStamp, 'small')]
    : [
        {
          kind: 'table',
          caption: 'Time stamps by an authority outside (RFC 3161)',
          columns: [
            { heading: 'Time that it states', share: 5 },
            { heading: 'Authority, serial number, policy', share: 7 },
            { heading: 'Entry and head that it stamped', share: 9, mono: true },
          ],
          rows: stamps.map((each) => [timeText(each), authorityText(each), stampedText(each, newest)]),
          empty: noStamp,
        },
        paragraph(stampMeaning, 'small'),
      ];

const timeText = ({ stamp, fault }: SeenStamp): string => {
  if (stamp === undefined || fault !== undefined)
    return `DOES NOT HOLD${fault === undefined ? '' : `: ${stampFaultText(fault)}`}`;
  const off = stamp.offMilliseconds === undefined ? '' : `, right within ${stamp.offMilliseconds / 1000} s`;
  return `${instantText(instant(stamp.at), 'UTC')}${off}`;
};

const authorityText = ({ stamp }: SeenStamp): string =>
  stamp === undefined ? 'not known' : `${stamp.authority}\nserial number ${stamp.serial}\npolicy ${stamp.policy}`;

const stampedText = ({ head, seq }: SeenStamp, newest: number): string =>
  `entry ${head.seq} of ${newest}\n${head.hash}\nkept in entry ${seq}`;
