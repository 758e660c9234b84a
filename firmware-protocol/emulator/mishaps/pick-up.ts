/** What gets into the wires from outside: the mains, the arc, and welding current in the part. */
import type { KindsOfMishap } from './mishap.ts';
import { withMore } from './voltage-change.ts';

/** Mains are held near 50 Hz and never at it; read once a second the difference is a slow wave. */
const mainsHertz = 50.02;
/** Of the moments in an arc, those that a burst falls into, and how high it may go beside its usual height; own choice. */
const burst = { share: 0.6, highest: 2.5 };

export const pickUp: KindsOfMishap<'mains-alias' | 'arc-noise' | 'ground-loop'> = {
  'mains-alias': {
    what: 'mains in the cable, read too seldom: a slow wave, however hot the part is',
    source: 'alias |f - fs round(f / fs)|; 100 uV is 2.4 K of type K',
    severity: { unit: 'uV', means: 'height of the wave', usual: 100, lowest: 1, highest: 20_000 },
    wholeBoard: true,
    act: ({ signal, severity, now }) => ({
      signal: withMore(signal, severity * Math.sin(2 * Math.PI * mainsHertz * now.seconds)),
    }),
  },
  'arc-noise': {
    what: 'bursts while an arc burns, on all channels together, and none without it',
    source: 'tens of kelvin in step with the arc are common experience',
    severity: { unit: 'uV', means: 'usual height of a burst', usual: 800, lowest: 1, highest: 20_000 },
    wholeBoard: true,
    act: ({ signal, severity, now, together, own }) => {
      if (!now.arc) return { signal };
      const height = together.even() < burst.share ? together.bell() : 0;
      const bounded = Math.min(Math.max(height, -burst.highest), burst.highest);
      return { signal: withMore(signal, severity * bounded * (0.7 + 0.3 * own.even())) };
    },
  },
  'ground-loop': {
    what: 'tips welded to a part that carries the welding current, on inputs that are not isolated: a step with the arc',
    source: 'rho I / A: 0.25 uOhm m, 200 A, 50 x 300 mm are 3.3 mV/m; 1 mV between tips 300 mm apart is 25 K of type K',
    severity: { unit: 'uV', means: 'between the ends of the joint', usual: 1000, lowest: -20_000, highest: 20_000 },
    wholeBoard: true,
    act: ({ signal, severity, now, along }) => ({
      signal: now.arc ? withMore(signal, (severity * along) / 2) : signal,
    }),
  },
};
