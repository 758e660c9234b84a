/** The facts of a single paper out of a record: the joint as last revised, with the answers that named persons gave. */

import { sourceAfter } from '../../judgement/source.ts';
import { inputOf } from '../../ledger/item.ts';
import type { Instant } from '../../measure/quantity.ts';
import type { Acceptance } from '../../metallurgy/answer.ts';
import { explain } from '../../metallurgy/explanation.ts';
import type { RecordReader } from '../../record/read.ts';
import type { Source } from '../../weld/entry.ts';
import type { Joint } from '../../weld/joint.ts';
import type { PaperFacts } from './paper-facts.ts';

/** Throws where the record has no opening entry. */
export function paperFacts(reader: RecordReader, chain: string, address: string): PaperFacts {
  let joint: Joint | undefined;
  let source: Source = { kind: 'not verified', detail: '' };
  let datedAt = 0 as Instant;
  const acceptances: Acceptance[] = [];
  for (const entry of reader.entries(chain)) {
    datedAt = entry.at;
    const input = inputOf(entry);
    if (input === undefined) continue;
    source = sourceAfter(source, input);
    if (input.type === 'station' && input.event.kind === 'opened') ({ joint, source } = input.event);
    if (input.type !== 'act') continue;
    if (input.act.kind === 'revise') joint = input.act.joint;
    if (input.act.kind !== 'accept') continue;
    const { subject, method } = input.act;
    acceptances.push({ subject, ...(method === undefined ? {} : { method }), who: input.who });
  }
  if (joint === undefined) throw new Error(`the record of ${chain} has no opening entry`);
  const { seq, hash } = reader.head(chain);
  return {
    joint,
    explanation: explain(joint, acceptances),
    standsIn: `Record ${chain}, entry ${seq}, head ${hash.slice(0, 16)}`,
    source,
    datedAt,
    address,
  };
}
