/** One touch of the check at ambient as it goes: from readings in degrees Celsius, by probe, to what is recorded of it. */
import type { Instant } from '../../measure/quantity.ts';
import type { AmbientTouch } from '../../weld/ambient-check.ts';

export type ReadNow = ReadonlyMap<string, number>;

/** A change of less than this is not worth a line in the record, kelvin; the probe itself always is. */
const worthKelvin = 0.3;

export function beginTouch(probe: string, way: AmbientTouch['way'], read: ReadNow, at: Instant): AmbientTouch {
  const readings = [...read].map(([each, celsius]) => ({ probe: each, fromCelsius: celsius, toCelsius: celsius }));
  return { probe, way, from: at, until: at, readings };
}

/** With what came in since: each probe keeps where it was furthest from its beginning. */
export function followTouch(touch: AmbientTouch, read: ReadNow, at: Instant): AmbientTouch {
  const readings = touch.readings.map((each) => {
    const celsius = read.get(each.probe);
    const isFurther =
      celsius !== undefined && Math.abs(celsius - each.fromCelsius) > Math.abs(each.toCelsius - each.fromCelsius);
    return isFurther ? { ...each, toCelsius: celsius } : each;
  });
  return { ...touch, until: at, readings };
}

export const endTouch = (touch: AmbientTouch): AmbientTouch => ({
  ...touch,
  readings: touch.readings.filter(
    ({ probe, fromCelsius, toCelsius }) => probe === touch.probe || Math.abs(toCelsius - fromCelsius) >= worthKelvin,
  ),
});
