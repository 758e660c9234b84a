/**
 * Mishaps done to the signals of a board: to a run that was made before, or moment by moment while a board runs. The
 * same run, mishaps and seed give the same signals, and a mishap leaves all else as it was.
 */
import { createNoise, type Noise } from '../noise.ts';
import type { Signal, Signals } from '../signal.ts';
import { kindsOfMishap, mishapProblem } from './list.ts';
import { type Kept, type Mishap, mishapKinds } from './mishap.ts';

/** The run with the mishaps in it. Throws a RangeError that says what is wrong with a mishap. */
export function withMishaps(run: readonly Signals[], mishaps: readonly Mishap[], seed = 1): Signals[] {
  const inject = createInjector(seed);
  return run.map((now) => inject(now, mishaps));
}

/** Takes moments in their order. Mishaps act in the order in which they are listed. */
export function createInjector(seed: number): (now: Signals, mishaps: readonly Mishap[]) => Signals {
  const running = new Map<Mishap, Run>();

  const act = (now: Signals, mishap: Mishap): Signals => {
    if (!isOn(mishap, now.seconds)) {
      running.delete(mishap);
      return now;
    }
    const run = running.get(mishap) ?? begin(mishap, now);
    running.set(mishap, run);
    const seconds = now.seconds - run.at;
    run.at = now.seconds;
    const hit = now.channels.filter((signal) => isHit(mishap, signal.channel));
    const channels = now.channels.map((signal) => {
      const place = hit.indexOf(signal);
      return place < 0
        ? signal
        : actOn(now, mishap, run, signal, seconds, hit.length < 2 ? 1 : 1 - (2 * place) / (hit.length - 1));
    });
    return { ...now, channels };
  };

  const actOn = (now: Signals, mishap: Mishap, run: Run, signal: Signal, seconds: number, along: number): Signal => {
    const rule = kindsOfMishap[mishap.kind];
    const step = rule.act({
      signal,
      now,
      severity: mishap.severity ?? rule.severity?.usual ?? 1,
      wire: mishap.wire,
      counterpart: counterpartOf(now, mishap, signal.channel),
      seconds,
      along,
      kept: run.kept.get(signal.channel) ?? {},
      together: chance(seed, mishap, now.seconds, 0),
      own: chance(seed, mishap, now.seconds, signal.channel),
    });
    run.kept.set(signal.channel, step.kept ?? {});
    return step.signal;
  };

  return (now, mishaps) => mishaps.reduce(act, now);
}

interface Run {
  at: number;
  readonly kept: Map<number, Kept>;
}

function begin(mishap: Mishap, now: Signals): Run {
  const problem = mishapProblem(mishap);
  if (problem !== undefined) throw new RangeError(problem);
  for (const channel of [mishap.channel, mishap.other]) {
    if (typeof channel !== 'number' || now.channels.some((signal) => signal.channel === channel)) continue;
    throw new RangeError(`this board has no channel ${channel}`);
  }
  return { at: now.seconds, kept: new Map() };
}

const isOn = ({ fromSeconds, untilSeconds = Number.POSITIVE_INFINITY }: Mishap, seconds: number): boolean =>
  seconds >= fromSeconds && seconds < untilSeconds;

const isHit = (mishap: Mishap, channel: number): boolean =>
  mishap.channel === 'all' || mishap.channel === channel || mishap.other === channel;

function counterpartOf({ channels }: Signals, { channel, other }: Mishap, own: number): Signal | undefined {
  if (other === undefined) return undefined;
  return channels.find((signal) => signal.channel === (own === other ? channel : other));
}

/** Chance of one moment, the same whatever came before it: mixed of all that it may depend on. */
function chance(seed: number, { kind }: Mishap, seconds: number, channel: number): Noise {
  let mixed = seed >>> 0;
  for (const part of [mishapKinds.indexOf(kind), Math.round(seconds * 1000), channel]) {
    mixed = Math.imul(mixed ^ part, 0x9e3779b1) >>> 0;
    mixed ^= mixed >>> 15;
  }
  return createNoise(mixed);
}
