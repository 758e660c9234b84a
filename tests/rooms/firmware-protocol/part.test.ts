/**
 * The emulated steel against what the theory of heat conduction says, with figures that do not change (k = 46 W/(m K),
 * rho c = 3.9 MJ/(m3 K)) where the theory has such. Series and edge values: computed from the formulas of Carslaw and
 * Jaeger, Conduction of Heat in Solids, chapters 3, 7 and 10; the edge of a band by a solver in two dimensions that is
 * not this one. Properties of carbon steel: EN 1993-1-2, verified; what it stores, computed from the formula.
 */
import { describe, expect, it } from 'vitest';
import {
  createPart,
  noLoss,
  type Part,
  type PartOptions,
  usualPart,
} from '../../../firmware-protocol/emulator/part.ts';
import { carbonSteel, unchangingSteel } from '../../../firmware-protocol/emulator/steel.ts';

const [conductivity, capacity] = [46, 3.9e6];
const diffusivity = conductivity / capacity;
const hot = { on: true, setPointCelsius: 2500 };

/** Steel of textbooks that loses nothing, under a constant flux; a band so long that its end is never felt, unless said. */
const underFlux = (thicknessMillimetres: number, flux: number, more: Partial<PartOptions> = {}): Part => {
  const part = createPart({
    ...usualPart,
    thicknessMillimetres,
    heaterWattsPerSquareMetre: flux,
    bandMillimetres: 1500,
    steel: unchangingSteel(conductivity, capacity),
    frontLoss: noLoss,
    backLoss: noLoss,
    ...more,
  });
  part.heater(hot);
  return part;
};

const fromFourier = (fourier: number, metres: number): number => (fourier * metres * metres) / diffusivity;

describe('the emulated plate conducts', () => {
  // (T - T0) / (q L / k) at the heated face and at the other, back insulated. Computed from the series.
  it.each([
    [0.2, 0.5051651887, 0.0614637513],
    [0.5, 0.8318759529, 0.3347907135],
    [1, 1.333322852, 0.8333438146],
  ])('as the series for a flux on one face says, at Fourier number %f', (fourier, front, back) => {
    const [flux, metres] = [20_000, 0.1];
    const part = underFlux(100, flux);
    part.advance(fromFourier(fourier, metres));
    const scale = (flux * metres) / conductivity;
    expect((part.celsiusAt(0, 0) - 20) / scale).toBeCloseTo(front, 2);
    expect((part.celsiusAt(1, 0) - 20) / scale).toBeCloseTo(back, 2);
  });

  it.each([12.5, 80, 300])(
    'with faces q L / 2 k apart, and rising by q / (rho c L), once steady: %f mm',
    (thickness) => {
      const [flux, metres] = [10_000, thickness / 1000];
      const part = underFlux(thickness, flux, { bandMillimetres: Math.max(600, 5 * thickness) });
      part.advance(fromFourier(1.2, metres));
      const before = part.celsiusAt(1, 0);
      part.advance(200);
      const apart = (flux * metres) / (2 * conductivity);
      expect((part.celsiusAt(0, 0) - part.celsiusAt(1, 0)) / apart).toBeCloseTo(1, 2);
      expect((part.celsiusAt(1, 0) - before) / ((200 * flux) / (capacity * metres))).toBeCloseTo(1, 2);
    },
  );

  it('alike from both faces, as half the thickness does from one', () => {
    const whole = underFlux(80, 15_000, { heatedFace: 'both' });
    const half = underFlux(40, 15_000);
    for (const part of [whole, half]) part.advance(300);
    expect(whole.celsiusAt(0, 40)).toBeCloseTo(whole.celsiusAt(1, 40), 9);
    expect(whole.celsiusAt(0.5, 40)).toBeCloseTo(half.celsiusAt(1, 40), 0);
    expect(whole.celsiusAt(0, 40)).toBeCloseTo(half.celsiusAt(0, 40), 0);
  });

  // What is left of q L / 2 k at the middle of a band whose half is so many thicknesses wide. Computed.
  it.each([
    [0.5, 0.83],
    [1, 0.965],
    [1.5, 0.993],
    [2, 0.9985],
  ])('past the edge of a band: half as wide as %f thicknesses', (widths, left) => {
    const [flux, metres] = [30_000, 0.1];
    const part = underFlux(100, flux, { bandMillimetres: widths * 100 });
    part.advance(fromFourier(1.5, metres));
    const apart = part.celsiusAt(0, 0) - part.celsiusAt(1, 0);
    expect(Math.abs(apart / ((flux * metres) / (2 * conductivity)) - left)).toBeLessThan(0.01);
  });
});

describe('the emulated plate loses', () => {
  const warmed = (loss: PartOptions['backLoss']): Part => {
    const part = underFlux(12.5, 10_000, { backLoss: loss });
    part.advance(665);
    part.heater({ on: false, setPointCelsius: 0 });
    part.advance(30);
    return part;
  };

  it('by convection as a lump does: exp(-h t / (rho c L)), from the face that is bare', () => {
    const part = warmed({ convectionWattsPerSquareMetreKelvin: 20, emissivity: 0 });
    const before = part.celsiusAt(0.5, 0) - 20;
    const halfConstant = (0.5 * capacity * 0.0125) / 20;
    part.advance(halfConstant);
    expect(before).toBeGreaterThan(80);
    expect((part.celsiusAt(0.5, 0) - 20) / before).toBeCloseTo(Math.exp(-0.5), 2);
  });

  it('by radiation: 8.6 W/(m2 K) at 150 degrees for an emissivity of 0.8 and air of 20 (computed)', () => {
    const part = warmed({ convectionWattsPerSquareMetreKelvin: 0, emissivity: 0.8 });
    const before = part.celsiusAt(0.5, 0);
    part.advance(20);
    const middle = (before + part.celsiusAt(0.5, 0)) / 2;
    const flux = ((before - part.celsiusAt(0.5, 0)) / 20) * capacity * 0.0125;
    expect(Math.abs(middle - 150)).toBeLessThan(3);
    expect(Math.abs(flux / (middle - 20) - 8.6)).toBeLessThan(0.25);
  });

  it('nothing at ambient, and nothing through the face that lies under its pads', () => {
    const [bare, lagged] = [usualPart.frontLoss, noLoss].map((frontLoss) =>
      createPart({ ...usualPart, frontLoss, backLoss: noLoss, bandMillimetres: 600 }),
    );
    for (const part of [bare!, lagged!]) {
      part.advance(600);
      expect(part.celsiusAt(0, 50)).toBeCloseTo(20, 4);
      part.heater({ on: true, setPointCelsius: 200 });
      part.advance(600);
    }
    expect(bare!.celsiusAt(0, 50)).toBeGreaterThan(50);
    expect(bare!.celsiusAt(0, 50)).toBeCloseTo(lagged!.celsiusAt(0, 50), 3);
    expect(bare!.account().lost).toBeGreaterThan(1000);
    expect(lagged!.account().lost).toBe(0);
  });
});

describe('the emulated plate is heated', () => {
  it.each([
    [12.5, 'pads', 'front'],
    [80, 'pads', 'both'],
    [80, 'torch', 'back'],
    [300, 'pads', 'back'],
  ] as const)('and what came in is stored or lost: %f mm, %s, %s', (thicknessMillimetres, heating, heatedFace) => {
    const part = createPart({ ...usualPart, thicknessMillimetres, heating, heatedFace });
    part.heater({ on: true, setPointCelsius: 180 });
    part.advance(1500);
    part.arc(true);
    part.advance(400);
    const { heater, arc, lost, stored } = part.account();
    expect(Math.min(heater, arc, lost)).toBeGreaterThan(10_000);
    expect(Math.abs((lost + stored) / (heater + arc) - 1)).toBeLessThan(1e-9);
  });

  it('to the set point at the place of the controller, and cools to the air when it is off', () => {
    const part = createPart({ ...usualPart, thicknessMillimetres: 25 });
    part.heater({ on: true, setPointCelsius: 150 });
    part.advance(3 * 3600);
    expect(part.celsiusAt(0, 110)).toBeLessThan(150.5);
    expect(part.celsiusAt(0, 110)).toBeGreaterThan(148);
    part.heater({ on: false, setPointCelsius: 150 });
    part.advance(18 * 3600);
    expect(part.celsiusAt(0, 110)).toBeLessThan(22);
  });

  it('on the face that is said to be heated', () => {
    const part = createPart({ ...usualPart, heatedFace: 'back' });
    part.heater({ on: true, setPointCelsius: 150 });
    part.advance(900);
    expect(part.celsiusAt(1, 50)).toBeGreaterThan(part.celsiusAt(0, 50) + 5);
  });

  it('by a flame that goes to and fro and is taken away at the set point', () => {
    const part = createPart({
      ...usualPart,
      heating: 'torch',
      thicknessMillimetres: 40,
      heaterWattsPerSquareMetre: 25_000,
    });
    part.heater({ on: true, setPointCelsius: 120 });
    part.advance(300);
    // A part of the bell falls beyond the groove: deviation / (band x root of 2 pi).
    expect(part.account().heater / (25_000 * 0.22 * 300)).toBeCloseTo(1 - 20 / (220 * Math.sqrt(2 * Math.PI)), 1);
    // Under the flame the face is hotter than beside it, and again cooler once the flame has gone on.
    const course = Array.from({ length: 30 }, () => {
      part.advance(1);
      return part.celsiusAt(0, 110);
    });
    expect(Math.max(...course) - Math.min(...course)).toBeGreaterThan(5);
    part.advance(3600);
    const { heater } = part.account();
    expect(part.celsiusAt(1, 110)).toBeGreaterThan(95);
    expect(part.celsiusAt(1, 110)).toBeLessThan(125);
    expect(heater).toBeLessThan(25_000 * 0.22 * 2500);
  });
});

describe('an arc', () => {
  const welded = (more: Partial<PartOptions>, seconds: number): Part => {
    const part = underFlux(80, 1, more);
    part.heater({ on: false, setPointCelsius: 0 });
    part.arc(true);
    part.advance(seconds);
    return part;
  };

  it('brings half its heat into each plate when it passes the middle of the joint, and again on its way back', () => {
    // 600 mm at 5 mm/s: past the middle after 60 s, after 180 s and after 300 s.
    expect(welded({}, 45).account().arc).toBeLessThan(1);
    expect(welded({}, 120).account().arc / 750_000).toBeCloseTo(1, 6);
    expect(welded({}, 240).account().arc / 750_000).toBeCloseTo(2, 6);
    expect(welded({ heatInputKilojoulesPerMillimetre: 3 }, 360).account().arc / 750_000).toBeCloseTo(6, 6);
  });

  it('begins at the end of the joint again when it was out', () => {
    const part = welded({}, 50);
    part.arc(false);
    part.advance(10);
    part.arc(true);
    part.advance(50);
    expect(part.account().arc).toBeLessThan(1);
    part.advance(30);
    expect(part.account().arc / 750_000).toBeCloseTo(1, 6);
  });

  it('is felt as a line of heat in thick steel: at most 2 q / (pi e rho c r^2), after r^2 / 4 a', () => {
    const part = welded({ thicknessMillimetres: 200, bandMillimetres: 300 }, 70);
    part.arc(false);
    let [highest, after] = [0, 0];
    for (let second = 10; second < 200; second += 1) {
      part.advance(1);
      const risen = part.celsiusAt(0.5, 60) - 20;
      if (risen > highest) [highest, after] = [risen, second + 1];
    }
    const radius = 0.06;
    expect(highest / ((2 * 750_000) / (Math.PI * Math.E * capacity * radius * radius))).toBeCloseTo(1, 1);
    expect(after / ((radius * radius) / (4 * diffusivity))).toBeCloseTo(1, 1);
  });

  it('warms the steel beside the groove, little further away, and at the depth of its bead most', () => {
    const part = createPart({ ...usualPart, beadDepth: 0.1 });
    part.arc(true);
    part.advance(70);
    const near = part.celsiusAt(0, 10) - 20;
    expect(near).toBeGreaterThan(60);
    expect(part.celsiusAt(0, 90) - 20).toBeLessThan(near / 20);
    expect(part.celsiusAt(1, 10) - 20).toBeLessThan(near / 5);
  });
});

describe('the emulated carbon steel', () => {
  // MJ/m3 from 20 degrees, and W/(m K): EN 1993-1-2 with 7850 kg/m3, computed from the formula.
  it.each([
    [100, 292.07, 50.67],
    [150, 488.08, 49.005],
    [200, 692.3, 47.34],
    [300, 1121.92, 44.01],
    [400, 1580.55, 40.68],
  ])('stores and conducts at %f degrees as the formulas say', (celsius, stored, conducts) => {
    const enthalpy = carbonSteel.enthalpyAt(celsius);
    expect((enthalpy - carbonSteel.enthalpyAt(20)) / 1e6 / stored).toBeCloseTo(1, 2);
    expect(carbonSteel.conductivityOf(enthalpy) / conducts).toBeCloseTo(1, 3);
    expect(carbonSteel.celsiusOf(enthalpy)).toBeCloseTo(celsius, 3);
  });
});
