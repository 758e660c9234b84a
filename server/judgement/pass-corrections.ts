/**
 * Slips in what was entered of passes, put right by a later entry. The record keeps both; the judge takes the acts of a
 * corrected pass as if they had been entered rightly at first, so that everything that follows from them is judged anew.
 * Acts name a pass as it was called when they came, so that they are gone through in the order of arrival.
 */
import type { Instant } from '../measure/quantity.ts';
import { againstDuty } from '../weld/duties.ts';
import type { Act, Input } from '../weld/entry.ts';
import {
  detailsOf,
  type PassCorrection,
  type PassCorrectionAct,
  type PassDetails,
  type PassFacts,
} from '../weld/pass-acts.ts';
import { effectiveAt } from './effect.ts';

type ActInput = Extract<Input, { readonly type: 'act' }>;

interface Entered {
  readonly start: { readonly index: number; readonly input: ActInput };
  end?: { readonly index: number; readonly input: ActInput };
  readonly details: { readonly index: number; readonly input: ActInput }[];
  facts: PassFacts;
  corrections: PassCorrection[];
}

/** Acts that stand otherwise than they came, by their place among the inputs; undefined: not at all. */
export function correctedActs(inputs: Iterable<Input>): ReadonlyMap<number, ActInput | undefined> {
  const passes: Entered[] = [];
  let index = -1;
  for (const input of inputs) {
    index += 1;
    if (input.type !== 'act') continue;
    if (input.act.kind === 'close') break;
    takeEntry(passes, input, index);
  }
  return new Map(passes.filter(({ corrections }) => corrections.length > 0).flatMap(standing));
}

function takeEntry(passes: Entered[], input: ActInput, index: number): void {
  const { act } = input;
  const called = (name: string) => passes.find((each) => each.facts.pass === name && !isStruck(each));
  switch (act.kind) {
    case 'pass start': {
      const { pass, passKind, welder } = act;
      if (called(pass) !== undefined) return;
      const facts = { pass, passKind, welder, startedAt: effectiveAt(input), ...detailsOf(act) };
      passes.push({ start: { index, input }, details: [], facts, corrections: [] });
      return;
    }
    case 'pass end': {
      const pass = called(act.pass);
      if (pass === undefined || pass.end !== undefined) return;
      pass.end = { index, input };
      pass.facts = { ...detailsOf(act), endedAt: effectiveAt(input), ...pass.facts };
      return;
    }
    case 'pass details': {
      const pass = called(act.pass);
      pass?.details.push({ index, input });
      if (pass !== undefined) pass.facts = { ...detailsOf(act), ...pass.facts };
      return;
    }
    case 'correct pass': {
      const pass = called(act.pass);
      if (pass === undefined || againstDuty(act.kind, input.role) !== undefined) return;
      if (act.name !== undefined && act.name !== act.pass && called(act.name) !== undefined) return;
      correct(pass, act, input);
      return;
    }
  }
}

function correct(pass: Entered, act: PassCorrectionAct, { who, role, at }: ActInput): void {
  const now = act.struck === true ? {} : rightOf(act, pass.end !== undefined);
  const facts: PassFacts = { ...pass.facts, ...now };
  if (facts.endedAt !== undefined && facts.endedAt < facts.startedAt!) return;
  const was =
    act.struck === true
      ? pass.facts
      : Object.fromEntries(
          Object.keys(now).flatMap((key) => {
            const before = pass.facts[key as keyof PassFacts];
            return before === undefined ? [] : [[key, before]];
          }),
        );
  const said = { by: who, ...(role === undefined ? {} : { role }), at, reason: act.reason };
  pass.corrections.push({ ...said, ...(act.struck === true ? { struck: true } : {}), was, now });
  pass.facts = facts;
}

const rightOf = (act: PassCorrectionAct, hasEnded: boolean): PassFacts => {
  const { name, passKind, welder, startedAt, endedAt } = act;
  return {
    ...(name === undefined ? {} : { pass: name }),
    ...(passKind === undefined ? {} : { passKind }),
    ...(welder === undefined ? {} : { welder }),
    ...(startedAt === undefined ? {} : { startedAt: startedAt as Instant }),
    ...(endedAt === undefined || !hasEnded ? {} : { endedAt: endedAt as Instant }),
    ...detailsOf(act),
  };
};

const isStruck = ({ corrections }: Entered): boolean => corrections.at(-1)?.struck === true;

function standing(entered: Entered): [number, ActInput | undefined][] {
  const { start, end, details, facts, corrections } = entered;
  const others = [...(end === undefined ? [] : [end]), ...details];
  const { pass, passKind, welder, startedAt, endedAt, ...right } = facts;
  // Another welder has other qualifications, which nobody looked up then.
  const { qualifications, ...was } = start.input.act as Act & { kind: 'pass start' };
  const known = qualifications === undefined || was.welder !== welder ? {} : { qualifications };
  const begun = { ...was, ...known, pass, passKind, welder, ...(right as PassDetails) };
  const begins = timed(
    { ...start.input, act: begun as ActInput['act'], corrected: corrections },
    startedAt!,
    corrections,
  );
  if (isStruck(entered))
    return [[start.index, begins], ...others.map(({ index }) => [index, undefined] as [number, undefined])];
  const named = ({ input }: { readonly input: ActInput }): ActInput => ({
    ...input,
    act: { ...input.act, pass: pass! } as ActInput['act'],
    corrected: corrections,
  });
  return [
    [start.index, begins],
    ...(end === undefined ? [] : [[end.index, timed(named(end), endedAt!, corrections)] as [number, ActInput]]),
    ...details.map((each) => [each.index, named(each)] as [number, ActInput]),
  ];
}

/** Where the right time lies after the entry, it is known only since it was corrected. */
function timed(input: ActInput, at: Instant, corrections: readonly PassCorrection[]): ActInput {
  const act = { ...input.act, happenedAt: at } as ActInput['act'];
  return { ...input, at: at > input.at ? corrections.at(-1)!.at : input.at, act };
}
