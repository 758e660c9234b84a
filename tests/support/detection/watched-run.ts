/**
 * Signals watched as the judge watches them, without the rest of the judge: the fast half of the detection table. What
 * was watched up to an instant can be kept and gone on from, so that fifty faults share one beginning.
 */
import { createInjector } from '../../../firmware-protocol/emulator/mishaps/inject.ts';
import type { Mishap } from '../../../firmware-protocol/emulator/mishaps/mishap.ts';
import { createNoise } from '../../../firmware-protocol/emulator/noise.ts';
import { type Form, type Signals, sampleOf } from '../../../firmware-protocol/emulator/signal.ts';
import { begin, type State } from '../../../server/judgement/state.ts';
import { aboutOf } from '../../../server/judgement/suspects.ts';
import { instant } from '../../../server/measure/quantity.ts';
import { toScan } from '../../../server/reading/scan-of-sample.ts';
import type { Sign } from '../../../server/suspicion/sign.ts';
import { copySuspicion, emptySuspicion, type Suspicion, watchScan } from '../../../server/suspicion/suspicion.ts';
import { begun, opening } from '../judged-voltages.ts';
import { residualsCentikelvin } from './residuals.ts';
import { boardName, joint, times } from './thermal-run.ts';

export interface SeenSign extends Sign {
  /** Seconds of the run when it was told. */
  readonly toldAt: number;
}

export interface WatchOptions {
  readonly seed: number;
  readonly form?: Form;
  readonly mishaps?: readonly Mishap[];
  /** Goes on from here. */
  readonly from?: Suspicion;
  /** Stops at the first sign for which this holds. */
  readonly until?: (sign: SeenSign) => boolean;
  readonly periodSeconds?: number;
  /** Whether the boards know of the arc, by a wired input. Passes are always entered. */
  readonly arcWired?: boolean;
}

const hello = {
  kind: 'hello',
  revision: 1,
  board: boardName,
  firmware: 'emulated-1',
  simulated: true,
  boot: 1,
  ticks: 0,
  periodMilliseconds: 1000,
  inputs: 4,
  linesKept: 64,
} as const;

const opened = opening(joint);
const state: State = begin(begun, (opened as { event: Parameters<typeof begin>[1] }).event);
const about = state.probes.map((each) => ({ ...aboutOf(state, each), trusted: true }));

/** All signs that were told over the run, or up to the one that was waited for. */
export function watchRun(run: readonly Signals[], options: WatchOptions): { signs: SeenSign[]; suspicion: Suspicion } {
  const { seed, form = 'voltage', mishaps = [], periodSeconds = 1 } = options;
  const suspicion = options.from === undefined ? emptySuspicion() : copySuspicion(options.from);
  const inject = createInjector(seed);
  const noise = residualsOf(seed);
  const channels = joint.probes.map(({ channel }) => ({ channel, form, thermocouple: 'K' as const }));
  const signs: SeenSign[] = [];
  for (const now of run) {
    const noisy = { ...now, channels: now.channels.map((each) => withNoise(each, noise(each.channel, now.seconds))) };
    const sample = sampleOf(inject(noisy, mishaps), Math.round(now.seconds), form);
    const at = instant(begun + now.seconds * 1000);
    const scan = toScan({ hello: { ...hello, channels }, sample, probes: joint.probes, measuredAt: at, arrivedAt: at });
    const wired = options.arcWired === false ? { ...scan, inputs: 0 } : scan;
    const changes = watchScan(suspicion, wired, {
      period: periodSeconds * 1000,
      arc: now.arc,
      about: () => about,
      circumstances: () => ({
        heat: now.seconds < times.heatOn ? 'not entered' : now.seconds < times.heatOff ? 'on' : 'off',
        welding: now.seconds >= times.passes[0][0],
      }),
    });
    for (const { change, sign } of changes) {
      if (change !== 'opened') continue;
      const seen = { ...sign, toldAt: now.seconds };
      signs.push(seen);
      if (options.until?.(seen) === true) return { signs, suspicion };
    }
  }
  return { signs, suspicion };
}

const microvoltsPerKelvin = 40;

function withNoise(signal: Signals['channels'][number], kelvin: number): Signals['channels'][number] {
  return signal.microvolts === undefined
    ? signal
    : { ...signal, microvolts: signal.microvolts + kelvin * microvoltsPerKelvin };
}

/** Goes through the residuals of a log from a place and in a direction that the seed draws, another one for each channel. */
function residualsOf(seed: number): (channel: number, second: number) => number {
  const draw = createNoise(seed * 7919 + 13);
  const rows = Array.from({ length: 17 }, () => ({
    row: residualsCentikelvin[draw.below(residualsCentikelvin.length)]!,
    from: draw.below(residualsCentikelvin[0]!.length),
    sign: draw.even() < 0.5 ? -1 : 1,
  }));
  return (channel, second) => {
    const { row, from, sign } = rows[channel]!;
    return (sign * row[(from + Math.round(second)) % row.length]!) / 100;
  };
}
