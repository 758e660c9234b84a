/** A scenario as a station would have recorded it: its inputs, and what the judge concluded after each act and now and then. */
import { readFileSync } from 'node:fs';
import type { Assessment } from '../../server/judgement/assessment.ts';
import { conclusions } from '../../server/judgement/conclusions.ts';
import { createJudge, firstOf } from '../../server/judgement/judge.ts';
import { type Item, itemOf } from '../../server/ledger/item.ts';
import { arrival, type Input } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import { readScenario } from './scenario.ts';

export interface RecordedScenario {
  readonly items: Item[];
  readonly inputs: readonly Input[];
  readonly joint: Joint;
  readonly assessment: Assessment;
}

/** By the name of its file; under the chain and with changes of its joint as the test wants them. */
export function recordedScenario(name: string, chain: string, changes: Partial<Joint> = {}): RecordedScenario {
  const text = readFileSync(new URL(`../rooms/judgement/scenarios/${name}.txt`, import.meta.url), 'utf8');
  const read = readScenario(text);
  const joint = { ...read.joint, id: chain, ...changes };
  const inputs = read.inputs.map(
    (input): Input =>
      input.type === 'station' && input.event.kind === 'opened'
        ? { ...input, event: { ...input.event, joint } }
        : input,
  );
  return { ...recorded(chain, inputs), inputs, joint };
}

function recorded(chain: string, inputs: readonly Input[]): { items: Item[]; assessment: Assessment } {
  const [first] = inputs;
  if (first?.type !== 'station' || first.event.kind !== 'opened') throw new Error('it begins with its opening');
  let taken = 1;
  const judge = createJudge(first.at, first.event, () => firstOf(inputs, taken));
  let before: Assessment | undefined;
  const items: Item[] = [];
  const conclude = (input: Input): void => {
    items.push(itemOf(chain, input));
    if (input.type === 'scan' && taken % 10 !== 0 && taken < inputs.length) return;
    const now = judge.assess();
    for (const body of conclusions(before, now))
      items.push({
        type: 'entry',
        chain,
        at: arrival(input),
        who: 'station',
        class: 'conclusion',
        kind: body.kind,
        body,
      });
    before = now;
  };
  conclude(first);
  for (const input of inputs.slice(1)) {
    judge.take(input);
    taken += 1;
    conclude(input);
  }
  return { items, assessment: judge.assess() };
}
