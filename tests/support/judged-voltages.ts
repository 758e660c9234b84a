/** Voltages of thermocouples by the second, read and judged as a station would: for tests of what faulty probes look like. */
import type { Finding } from '../../server/judgement/assessment.ts';
import { judgeAll } from '../../server/judgement/judge.ts';
import { type DeciMicrovolt, type Instant, instant, milliCelsius } from '../../server/measure/quantity.ts';
import { junctionOfVoltage } from '../../server/reading/junction.ts';
import { millivoltsAt } from '../../server/reading/thermocouple.ts';
import type { Input } from '../../server/weld/entry.ts';
import type { Joint } from '../../server/weld/joint.ts';
import type { ScanValue } from '../../server/weld/scan.ts';

/** A voltage with its terminals, 'open' as a converter flags it, or undefined where the channel is left out. */
export interface Volts {
  readonly microvolts: number;
  readonly terminalsCelsius: number;
}
export type Signal = Volts | 'open' | undefined;

export const begun = instant(Date.UTC(2026, 2, 2, 6));
export const secondOf = (at: Instant): number => (at - begun) / 1000;

/** What a sound type K thermocouple gives. */
export const soundSignal = (celsius: number, terminalsCelsius = 25): Volts => ({
  microvolts: 1000 * (millivoltsAt('K', celsius)! - millivoltsAt('K', terminalsCelsius)!),
  terminalsCelsius,
});

function scanValueOf(probe: string, signal: Signal): ScanValue {
  if (signal === undefined) return { probe, quality: 'no reading', raw: { form: 'none' } };
  if (signal === 'open') return { probe, quality: 'open', raw: { form: 'none' } };
  const deciMicrovolts = Math.round(signal.microvolts * 10) as DeciMicrovolt;
  const coldJunction = milliCelsius(Math.round(signal.terminalsCelsius * 100) / 100);
  if (deciMicrovolts === 0 && coldJunction === 0)
    return { probe, quality: 'no reading', raw: { form: 'voltage', deciMicrovolts, coldJunction } };
  return {
    probe,
    ...junctionOfVoltage('K', deciMicrovolts, coldJunction),
    raw: { form: 'voltage', deciMicrovolts, coldJunction },
  };
}

export const opening = (joint: Joint, periodMilliseconds = 1000): Input => ({
  type: 'station',
  at: begun,
  event: {
    kind: 'opened',
    joint,
    source: { kind: 'measured', detail: 'test' },
    periodMilliseconds,
    openedBy: 'Ada',
    rules: 'test',
    station: 'test',
  } as never,
});

function scanInput(second: number, values: readonly ScanValue[], board = 'board-1', inputs = 0): Input {
  const at = instant(begun + second * 1000);
  const scan = { board, boot: 1, sequence: second, ticks: second * 1000, measuredAt: at, arrivedAt: at };
  return { type: 'scan', scan: { ...scan, late: false, inputs, values } };
}

/** Suspects found in so many seconds of signals, by the probe's name. */
export function suspectsOf(
  joint: Joint,
  seconds: number,
  signals: (second: number) => Record<string, Signal>,
): Finding[] {
  const inputs: Input[] = [opening(joint)];
  for (let second = 1; second <= seconds; second += 1)
    inputs.push(
      scanInput(
        second,
        Object.entries(signals(second)).map(([probe, signal]) => scanValueOf(probe, signal)),
      ),
    );
  return judgeAll(inputs).assessment.findings.filter(({ kind }) => kind === 'probe suspect');
}
