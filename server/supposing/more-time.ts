/**
 * A pass that begins some minutes later. What would have been read meanwhile was not read: it is carried on from the last minutes, once
 * to the colder end of what is possible and once to the warmer, and the judge takes either for readings. A place whose course does not
 * tell is not read then, so that the judge says "not judged" by itself. What came after the start of the pass is not supposed anew.
 */
import type { Finding } from '../judgement/assessment.ts';
import { effectiveAt } from '../judgement/effect.ts';
import { verdictFrom } from '../judgement/verdict-from.ts';
import { after, type Instant, type MilliCelsius, minutes } from '../measure/quantity.ts';
import type { Input } from '../weld/entry.ts';
import type { Scan, ScanValue } from '../weld/scan.ts';
import { type Remark, type Stood, type SupposedAnswer, type SupposedPlace, sameOf, without } from './answer.ts';
import { type Course, courseOn, type Point } from './goes-on.ts';
import { again, type Ordered, type Run, run, stoodOf } from './run.ts';
import type { Supposition } from './supposition.ts';

type MoreTime = Extract<Supposition, { kind: 'more time' }>;
type End = 'low' | 'high';

/** Undefined where there is no such pass. */
export function moreTime(record: Ordered, supposed: MoreTime): SupposedAnswer | undefined {
  const start = startNamed(record.inputs, supposed.pass);
  if (start === undefined) return undefined;
  const startedAt = effectiveAt(start);
  const later = after(startedAt, minutes(supposed.minutes));
  const before = again(() => upTo(record.inputs, supposed.pass));
  const { courses, boards } = coursesOf(before, startedAt);
  const began = { ...start, at: later, act: withoutTime(start.act) };
  const ends = (['low', 'high'] as const).map((end) =>
    run({
      ...record,
      inputs: again(function* () {
        yield* before;
        yield* carriedOn(boards, courses, startedAt, later, end);
        yield began;
      }),
      until: later,
    }),
  );
  const whole = run(record);
  return compared(supposed, whole, ends as [Run, Run], { startedAt, later, courses, stood: stoodOf(record, whole) });
}

interface Moment {
  readonly startedAt: Instant;
  readonly later: Instant;
  readonly courses: ReadonlyMap<string, Course | undefined>;
  readonly stood: Stood;
}

function compared(supposed: MoreTime, whole: Run, [low, high]: [Run, Run], moment: Moment): SupposedAnswer {
  const { startedAt, later, courses } = moment;
  const all = whole.assessment.findings;
  // What was found before the pass is judged anew with the rest; what came after its start stands as it was judged.
  const isOfStart = (each: Finding): boolean => each.pass === supposed.pass && each.from === startedAt;
  const stays = all.filter((each) => (each.from >= startedAt || each.knownAt > startedAt) && !isOfStart(each));
  const [ofLow, ofHigh] = [low, high].map(({ assessment }) => [
    ...assessment.findings,
    ...without(stays, assessment.findings),
  ]);
  const isSplit = (each: Finding): boolean => each.kind === 'uneven' || has(ofLow!, each) !== has(ofHigh!, each);
  const either = [...ofLow!, ...without(ofHigh!, ofLow!)];
  const changed = [
    ...without(
      all,
      ofLow!.filter((each) => has(ofHigh!, each)),
    ),
    ...without(either, all),
  ];
  const unsure = changed.filter(isSplit);
  const places = placesOf(whole, courses, moment);
  const remarks: Remark[] = ['nothing else is done meanwhile', 'later passes as they were'];
  if (unsure.some(({ kind }) => kind === 'uneven')) remarks.push('evenness cannot be known');
  if (places.some(({ low }) => low === undefined)) remarks.push('some places cannot be carried on');
  const [ofColder, ofWarmer] = [low, high].map(({ judged }) =>
    judged.passes.find(({ pass }) => pass === supposed.pass),
  );
  const readyAt = inBoth(ofColder?.readyAt, ofWarmer?.readyAt);
  const firstReadyAt = inBoth(low.judged.firstReadyAt, high.judged.firstReadyAt);
  const coreAt = inBoth(low.judged.coreAt, high.judged.coreAt);
  return {
    supposition: supposed,
    stood: moment.stood,
    now: whole.judged,
    verdicts: [...new Set([ofLow!, ofHigh!].map((findings) => verdictFrom(findings, true)))],
    wouldBe: {
      ...(firstReadyAt === undefined ? {} : { firstReadyAt }),
      ...(coreAt === undefined ? {} : { coreAt }),
      passes: [
        {
          pass: supposed.pass,
          startedAt: later,
          ...(readyAt === undefined ? {} : { readyAt }),
          minimum: alike(ofColder?.minimum, ofWarmer?.minimum),
          maximum: alike(ofColder?.maximum, ofWarmer?.maximum),
        },
      ],
    },
    gone: changed.filter((each) => has(all, each) && !isSplit(each)),
    come: changed.filter((each) => !has(all, each) && !isSplit(each)),
    unsure,
    places,
    remarks,
  };
}

/** In either case by then. */
const inBoth = (a: Instant | undefined, b: Instant | undefined): Instant | undefined =>
  a === undefined || b === undefined ? undefined : (Math.max(a, b) as Instant);

const alike = <T>(a: T | undefined, b: T | undefined): T | 'not known' =>
  a === undefined || a !== b ? 'not known' : a;

const has = (findings: readonly Finding[], one: Finding): boolean =>
  findings.some((each) => sameOf(each) === sameOf(one));

function placesOf(whole: Run, courses: Moment['courses'], { startedAt, later }: Moment): SupposedPlace[] {
  return whole.state.joint.probes
    .filter(({ use }) => use !== 'spare' && use !== 'heater control' && use !== 'ambient')
    .map(({ id }) => {
      const course = courses.get(id);
      if (course === undefined) return { probe: id };
      const { low, high } = course.at(later);
      const then = course.at(startedAt);
      return { probe: id, asMeasured: Math.round((then.low + then.high) / 2), low, high };
    });
}

function startNamed(inputs: Iterable<Input>, pass: string): ActInput | undefined {
  for (const input of inputs) if (input.type === 'act' && startOf(input) === pass) return input;
  return undefined;
}

/** What came before the pass began. */
function* upTo(inputs: Iterable<Input>, pass: string): Iterable<Input> {
  for (const input of inputs) {
    if (startOf(input) === pass) return;
    yield input;
  }
}

type ActInput = Extract<Input, { type: 'act' }>;

const startOf = (input: Input): string | undefined =>
  input.type === 'act' && input.act.kind === 'pass start' && input.corrected?.at(-1)?.struck !== true
    ? input.act.pass
    : undefined;

function withoutTime(act: ActInput['act']): ActInput['act'] {
  if (!('happenedAt' in act)) return act;
  const { happenedAt: _happenedAt, ...rest } = act;
  return rest as typeof act;
}

interface LastOfBoard {
  readonly scan: Scan;
  readonly period: number;
}

/** What each probe did since something last acted on the joint, and how each board measured. */
function coursesOf(before: Iterable<Input>, startedAt: Instant) {
  const points = new Map<string, Point[]>();
  const boards = new Map<string, LastOfBoard>();
  let undisturbedFrom = 0 as Instant;
  for (const input of before) {
    if (input.type === 'act' && disturbs.has(input.act.kind)) undisturbedFrom = effectiveAt(input);
    if (input.type !== 'scan') continue;
    const { scan } = input;
    const known = boards.get(scan.board);
    boards.set(scan.board, {
      scan,
      period: known === undefined ? 1000 : Math.max(200, scan.measuredAt - known.scan.measuredAt),
    });
    for (const { probe, temperature } of scan.values) {
      if (temperature === undefined || scan.measuredAt < startedAt - watched) continue;
      const list = points.get(probe) ?? [];
      list.push([scan.measuredAt, temperature]);
      points.set(probe, list);
    }
  }
  const courses = new Map([...points].map(([probe, list]) => [probe, courseOn(list, startedAt, undisturbedFrom)]));
  return { courses, boards };
}

/** As far back as a course looks, and the reading before it. */
const watched = 200_000;

/** After these a place is on another way than before. */
const disturbs: ReadonlySet<string> = new Set(['heat', 'pass start', 'pass end', 'post-heating', 'cover']);

function* carriedOn(
  boards: ReadonlyMap<string, LastOfBoard>,
  courses: ReadonlyMap<string, Course | undefined>,
  from: Instant,
  to: Instant,
  end: End,
): Generator<Input, void> {
  const scans: Scan[] = [];
  for (const { scan, period } of boards.values()) {
    // A board that had fallen silent stays so.
    if (from - scan.measuredAt > 3 * period) continue;
    for (let n = 1; scan.measuredAt + n * period <= to; n += 1) {
      const at = (scan.measuredAt + n * period) as Instant;
      if (at <= from) continue;
      scans.push({
        ...scan,
        sequence: scan.sequence + n,
        ticks: scan.ticks + n * period,
        measuredAt: at,
        arrivedAt: at,
        late: false,
        values: scan.values.map(({ probe }) => valueAt(probe, courses.get(probe), at, end)),
      });
    }
  }
  for (const scan of scans.sort((a, b) => a.measuredAt - b.measuredAt)) yield { type: 'scan', scan };
}

function valueAt(probe: string, course: Course | undefined, at: Instant, end: End): ScanValue {
  if (course === undefined) return { probe, quality: 'no reading', raw: { form: 'none' } };
  const temperature = course.at(at)[end] as MilliCelsius;
  return { probe, quality: 'good', temperature, raw: { form: 'temperature', reported: temperature } };
}
