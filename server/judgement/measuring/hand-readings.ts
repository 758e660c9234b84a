/**
 * Readings by hand beside the probes. One counts for a minute. It makes nothing look better than the probes say: at a
 * place that a probe reads it counts only where it is worse, and it stands in only for the probe that it was held beside
 * and that is not read or not trusted. A crayon counts as the bound that it shows.
 */
import { limits } from '../../measure/limits.ts';
import { difference, type Instant, type MilliCelsius, type Millikelvin, milliCelsius } from '../../measure/quantity.ts';
import { chainOf } from '../../reading/chain.ts';
import { correctionAt } from '../../reading/correction.ts';
import { budgetOf, handBudget } from '../../reading/uncertainty.ts';
import type { HandReadingAct } from '../../weld/hand-reading.ts';
import { type Instrument, isHandKind } from '../../weld/instrument.ts';
import { agree, boundKeepsMaximum, boundKeepsMinimum, type Kept, keepsMaximum, keepsMinimum } from '../compare.ts';
import { note } from '../findings.ts';
import { expandedFactor, rules } from '../rules.ts';
import { isFresh, type State } from '../state.ts';
import { bandOf } from './guard.ts';
import type { HandReading, Twin } from './hand-reading.ts';
import { instrumentsNow, noteHandInstrument } from './register.ts';

export function takeHandReading(state: State, act: HandReadingAct, who: string, enteredAt: Instant): void {
  const { instrument, shows, emissivity, use, place } = act;
  const registered = instrumentsNow(state).find(({ id }) => id === instrument);
  const kind = act.instrumentKind ?? kindOf(registered);
  const correction = correctionAt(registered?.corrections ?? [], act.celsius);
  const shown = milliCelsius(act.celsius);
  const temperature = milliCelsius(act.celsius + (correction?.kelvin ?? 0));
  const { standardKelvin } = handBudget(registered, act.celsius, { kind, emissivity });
  const standardUncertainty = Math.round(standardKelvin * 1000) as Millikelvin;
  const twin = shows === undefined ? twinOf(state, act.probe, temperature, standardUncertainty) : undefined;
  const reading: HandReading = {
    at: state.now,
    enteredAt,
    who,
    instrument,
    ...(kind === undefined ? {} : { instrumentKind: kind }),
    temperature,
    ...(temperature === shown ? {} : { correction: difference(temperature, shown) }),
    ...(shows === undefined ? {} : { bound: shows }),
    ...(emissivity === undefined ? {} : { emissivity }),
    use,
    place,
    standardUncertainty,
    ...(twin === undefined ? {} : { twin }),
    ...(act.probe === undefined ? {} : { probe: act.probe }),
  };
  state.hand.push(reading);
  if (state.hand.length > limits.handReadingsMaximum) state.hand.shift();
  noteHandInstrument(state, instrument);
  if (twin !== undefined && !twin.agrees) {
    const { probe, difference: value, expandedUncertainty: limit } = twin;
    note(state, 'twin reading apart', state.now, { probe, instrument, value, limit });
  }
}

/** Of the use, young enough to count; of one place only the newest, since what was read there before has been looked at again. */
export function handNow(state: State, ...uses: HandReading['use'][]): HandReading[] {
  const counted: HandReading[] = [];
  for (let index = state.hand.length - 1; index >= 0; index -= 1) {
    const each = state.hand[index]!;
    if (state.now - each.at > rules.contactReadingAge) break;
    if (uses.includes(each.use) && !counted.some((newer) => isOnePlace(newer, each))) counted.push(each);
  }
  return counted;
}

/** When the newest readings by hand stop counting. */
export function handDue(state: State): Instant[] {
  const due: Instant[] = [];
  for (let index = state.hand.length - 1; index >= 0; index -= 1) {
    const until = (state.hand[index]!.at + rules.contactReadingAge + 1) as Instant;
    if (until <= state.now) break;
    due.push(until);
  }
  return due;
}

/** Undefined where it is a bound that says nothing of the limit. */
export function handKeepsMinimum(state: State, each: HandReading, limit: MilliCelsius): Kept | undefined {
  const band = bandOf(state, each);
  return each.bound === undefined
    ? keepsMinimum(each.temperature, limit, band)
    : boundKeepsMinimum(each.bound, each.temperature, limit, band);
}

export function handKeepsMaximum(state: State, each: HandReading, limit: MilliCelsius): Kept | undefined {
  const band = bandOf(state, each);
  return each.bound === undefined
    ? keepsMaximum(each.temperature, limit, band)
    : boundKeepsMaximum(each.bound, each.temperature, limit, band);
}

/** The difference counts only against a reading of the probe that is fresh; whether the probe is trusted does not matter here. */
function twinOf(
  state: State,
  id: string | undefined,
  temperature: MilliCelsius,
  handUncertainty: Millikelvin,
): Twin | undefined {
  const found = state.probes.find(({ probe }) => probe.id === id);
  if (found === undefined || found.lastQuality !== 'good' || !isFresh(state, found)) return undefined;
  const { probe, good } = found;
  const ofProbe =
    budgetOf(probe, chainOf(probe, instrumentsNow(state)), good!.temperature / 1000).standardKelvin * 1000;
  const combined = Math.sqrt(ofProbe * ofProbe + handUncertainty * handUncertainty);
  const expandedUncertainty = Math.round(expandedFactor * combined) as Millikelvin;
  const apart = difference(temperature, good!.temperature);
  return {
    probe: probe.id,
    temperature: good!.temperature,
    difference: apart,
    expandedUncertainty,
    agrees: agree(apart, expandedUncertainty),
  };
}

const kindOf = (instrument: Instrument | undefined): HandReading['instrumentKind'] =>
  instrument !== undefined && isHandKind(instrument.kind) ? instrument.kind : undefined;

const isOnePlace = (a: HandReading, b: HandReading): boolean =>
  a.use === b.use &&
  a.probe === b.probe &&
  a.place.part === b.place.part &&
  a.place.side === b.place.side &&
  a.place.face === b.place.face &&
  a.place.clock === b.place.clock;
