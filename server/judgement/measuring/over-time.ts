/**
 * What the instruments add to each reading, and how uncertain it is, at any time of a job: for chart, history and CSV,
 * which show what was judged. The same rules as in the fold, over the same acts in the order of their effect; whatever
 * reaches back is in its place here without the readings being folded anew.
 */
import type { Instant, MilliCelsius, Millikelvin } from '../../measure/quantity.ts';
import { type Chain, calibratedOf, chainOf } from '../../reading/chain.ts';
import { corrected } from '../../reading/correction.ts';
import { budgetOf } from '../../reading/uncertainty.ts';
import type { Act, Input } from '../../weld/entry.ts';
import type { Joint } from '../../weld/joint.ts';
import type { Probe } from '../../weld/probe.ts';
import { effectiveAt } from '../effect.ts';
import { expandedFactor } from '../rules.ts';
import { isUncertaintyKept } from './judged-reading.ts';
import {
  type InstrumentAct,
  type InstrumentState,
  type Register,
  revisedRegister,
  takeInstrumentAct,
} from './register.ts';

export interface MeasuredOverTime {
  /** Whether a correction is in any reading of the job. */
  readonly isCorrected: boolean;
  /** As it was judged, from what the instrument gave. */
  correct(probe: string, at: Instant, temperature: MilliCelsius): MilliCelsius;
  /** Expanded uncertainty (k = 2) of what the instrument gave; undefined where uncertainty is not kept. */
  expandedUncertainty(probe: string, at: Instant, temperature: MilliCelsius): Millikelvin | undefined;
}

/** From all that is no reading, in the order of arrival. */
export function measuredOverTime(entries: Iterable<Input>): MeasuredOverTime {
  const eras = erasOf(entries);
  // A reading of the very instant came first (anew.ts).
  const chainAt = (probe: string, at: Instant): InUse | undefined =>
    (eras.findLast(({ from }) => from < at) ?? eras[0])?.inUse.get(probe);
  return {
    isCorrected: eras.some(({ inUse }) => [...inUse.values()].some(({ isCorrected }) => isCorrected)),
    correct(probe, at, temperature) {
      const used = chainAt(probe, at);
      return used?.isCorrected === true ? corrected(temperature, used.chain) : temperature;
    },
    expandedUncertainty(probe, at, temperature) {
      const used = chainAt(probe, at);
      if (used === undefined || !used.isKept) return undefined;
      const { standardKelvin } = budgetOf(used.probe, used.chain, temperature / 1000);
      return (expandedFactor * Math.round(standardKelvin * 1000)) as Millikelvin;
    },
  };
}

/** What a probe is read through, and whether anything corrects it. */
interface InUse {
  readonly probe: Probe;
  readonly chain: Chain;
  readonly isCorrected: boolean;
  readonly isKept: boolean;
}

interface Era {
  readonly from: Instant;
  readonly inUse: ReadonlyMap<string, InUse>;
}

function erasOf(entries: Iterable<Input>): Era[] {
  const eras: Era[] = [];
  let joint: Joint | undefined;
  const known: Register = { register: [], notRegistered: [] };
  for (const input of [...entries].sort((a, b) => effectiveAt(a) - effectiveAt(b))) {
    if (input.type === 'station' && input.event.kind === 'opened') joint = input.event.joint;
    else if (input.type === 'act' && input.act.kind === 'revise') joint = input.act.joint;
    else if (input.type !== 'act' || !isInstrumentAct(input.act)) continue;
    if (joint === undefined) continue;
    // States are changed in place by an act; those of the era before are read out already.
    if (input.type === 'act' && isInstrumentAct(input.act)) takeInstrumentAct(known, input.act);
    else revisedRegister(known, joint);
    eras.push({ from: effectiveAt(input), inUse: inUseOf(joint, known.register) });
  }
  return eras;
}

const isInstrumentAct = (act: Act): act is InstrumentAct =>
  act.kind === 'calibration' || act.kind === 'verification' || act.kind === 'adjustment';

function inUseOf(joint: Joint, register: readonly InstrumentState[]): Map<string, InUse> {
  const instruments = register.map(({ now }) => now);
  const isKept = isUncertaintyKept({ joint });
  return new Map(
    joint.probes.map((probe): [string, InUse] => {
      const chain = chainOf(probe, instruments);
      const isCorrected = calibratedOf(chain).some(({ corrections = [] }) => corrections.length > 0);
      return [probe.id, { probe, chain, isCorrected, isKept }];
    }),
  );
}
