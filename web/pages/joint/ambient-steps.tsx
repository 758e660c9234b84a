/** The three steps of the check at ambient, as they are shown. */
import { type AmbientOutcomes, ambientRules, type Touched } from '../../../server/judgement/ambient/touch.ts';
import { type Millikelvin, milliCelsius, millikelvin } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { AmbientTouch } from '../../../server/weld/ambient-check.ts';
import { outcomeAdvice, outcomeText, restText } from '../../../server/wording/ambient.ts';
import { signedDifferenceText, uncertaintyText } from '../../../server/wording/instrument.ts';
import { begun } from '../../../server/wording/list.ts';
import { limitText, temperatureText } from '../../../server/wording/temperature.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { placeMark } from '../../format/place.ts';
import { ChoiceField } from '../../parts/field.tsx';
import { Glyph } from '../../parts/glyph.tsx';
import type { Guide } from './ambient-guide.ts';

/** All probes live, how far apart they lie, and how far from the air. */
export function Rest({
  live,
  outcomes,
  air,
}: {
  readonly live: LiveJoint;
  readonly outcomes: AmbientOutcomes;
  readonly air: number | undefined;
}) {
  const { units } = live.assessment.requirement;
  const dead = outcomes.probes.filter(({ atRest }) => atRest === undefined).map(({ probe }) => probe);
  return (
    <>
      <ul class="ambient-rest" aria-label="Probes at rest">
        {outcomes.probes.map(({ probe, atRest, apart }) => (
          <li key={probe} class={atRest === undefined || isApart(apart) ? 'wrong' : ''}>
            <span>{probe}</span>
            <span class="value">{atRest === undefined ? 'no reading' : temperatureText(atRest, units)}</span>
            {apart !== undefined && <span class="aside">{signedDifferenceText(apart, units)}</span>}
          </li>
        ))}
      </ul>
      {air !== undefined && <p class="aside">{begun(restText(outcomes, air, units))}.</p>}
      {dead.length > 0 && (
        <p class="notice">
          <strong>{dead.join(', ')}: no reading.</strong> Mend that first, or go on; the record will say so.
        </p>
      )}
      {air !== undefined && outcomes.isOffAir && (
        <p class="notice loud">
          <strong>All probes together lie far from the air.</strong> Is the air read rightly? A part from outdoors needs
          time; a wrong temperature at the terminals shifts all probes alike.
        </p>
      )}
    </>
  );
}

const isApart = (apart: Millikelvin | undefined): boolean =>
  apart !== undefined && Math.abs(apart) > ambientRules.apartMillikelvin;

/** One tip in the hand, and what moves. */
export function Touching({
  live,
  guide,
  touch,
  so,
  setWay,
  anew,
  leaveOut,
}: {
  readonly live: LiveJoint;
  readonly guide: Guide;
  readonly touch: AmbientTouch;
  readonly so: Touched;
  readonly setWay: (way: AmbientTouch['way']) => void;
  readonly anew: () => void;
  readonly leaveOut: () => void;
}) {
  const { units } = live.assessment.requirement;
  const place = live.assessment.probes.find((each) => each.probe === touch.probe)?.place;
  const count = guide.rest.filter(({ celsius }) => celsius !== undefined).length;
  const movers = touch.readings
    .map(({ probe, fromCelsius, toCelsius }) => ({ probe, move: millikelvin(toCelsius - fromCelsius) }))
    .filter(({ probe, move }) => probe !== touch.probe && Math.abs(move) >= ambientRules.movesMillikelvin / 2);
  return (
    <>
      <p class="aside">
        Probe {guide.touches.length + guide.leftOut.length + 1} of {count}
      </p>
      <p class="ambient-ask">
        {touch.way === 'warmed' ? 'Hold the tip of' : 'Press a wet cloth on the tip of'} <strong>{touch.probe}</strong>
        {place !== undefined && <span class="place">{placeMark(place, units)}</span>}
      </p>
      <p class={`ambient-so ${tone(so)}`} role="status">
        <span class="figure">{signedDifferenceText(so.moved ?? (0 as Millikelvin), units)}</span>
        <span>
          <Glyph name={tone(so) === 'right' ? 'met' : tone(so) === 'wrong' ? 'unmet' : 'unjudged'} size={26} />{' '}
          {soText(touch, so, units)}
        </span>
      </p>
      {movers.length > 0 && (
        <p class="aside">
          Others that move:{' '}
          {movers.map(({ probe, move }) => `${probe} ${signedDifferenceText(move, units)}`).join(', ')}.
        </p>
      )}
      <ChoiceField
        label="How the tip is touched"
        value={touch.way}
        choices={[
          { value: 'warmed', text: 'Warmed by hand' },
          { value: 'cooled', text: 'Cooled with a wet cloth' },
        ]}
        onValue={setWay}
      />
      <div class="row">
        <button type="button" class="plain" onClick={anew}>
          Begin this one again
        </button>
        <button type="button" class="plain" onClick={leaveOut}>
          Leave {touch.probe} out
        </button>
      </div>
    </>
  );
}

function soText({ probe, way }: AmbientTouch, so: Touched, units: UnitSystem): string {
  const needed = uncertaintyText(ambientRules.movesMillikelvin, units);
  switch (so.outcome) {
    case 'in order':
      return `${probe} moves, and the right way`;
    case 'does not move':
      return `Waiting for a ${way === 'warmed' ? 'rise' : 'fall'} of ${needed}`;
    case 'moves the wrong way':
      return `${probe} moves the wrong way: its two wires are crossed`;
    default:
      return `${so.other ?? 'Another probe'} moves ${so.outcome === 'several move' ? 'as well' : `instead of ${probe}`}`;
  }
}

const tone = ({ outcome }: Touched): 'right' | 'waiting' | 'wrong' =>
  outcome === 'in order' ? 'right' : outcome === 'does not move' ? 'waiting' : 'wrong';

/** What is recorded, and what to do about what was found. */
export function Found({
  outcomes,
  air,
  units,
  again,
  anew,
}: {
  readonly outcomes: AmbientOutcomes;
  readonly air: number | undefined;
  readonly units: UnitSystem;
  readonly again: (probe: string) => void;
  readonly anew: () => void;
}) {
  const wrong = outcomes.probes.filter(({ outcome }) => outcome !== 'in order').length;
  return (
    <>
      <p>
        <strong>
          {wrong === 0 && !outcomes.isOffAir
            ? `All ${outcomes.probes.length} probes are in order.`
            : wrong === 0
              ? 'Each probe moves rightly, but all lie far from the air.'
              : `${wrong} of ${outcomes.probes.length} probes not in order.`}
        </strong>{' '}
        {air === undefined ? '' : `At rest ${restText(outcomes, air, units)}.`}
      </p>
      <ul class="ambient-found" aria-label="What was found">
        {outcomes.probes.map((each) => (
          <li key={each.probe} class={each.outcome === 'in order' ? 'right' : 'wrong'}>
            <Glyph name={each.outcome === 'in order' ? 'met' : 'unmet'} size={22} />
            <span>
              <strong>{each.probe}</strong> {outcomeText(each, units)}
              {each.outcome !== 'in order' && <span class="place">{outcomeAdvice[each.outcome]}</span>}
            </span>
            {each.atRest !== undefined && (
              <button
                type="button"
                class="plain"
                aria-label={`Touch ${each.probe} again`}
                onClick={() => again(each.probe)}
              >
                Again
              </button>
            )}
          </li>
        ))}
      </ul>
      <p class="hint">
        Press the button to record it as it was found, with your name
        {air === undefined ? '' : `, in air of ${limitText(milliCelsius(air), units)}`}. Mended something? Check anew;
        the newest check counts.
      </p>
      <button type="button" class="plain" onClick={anew}>
        Begin the whole check anew
      </button>
    </>
  );
}
