/**
 * Diffusion of hydrogen out of a plate. Diffusivities: Böllinghaus et al., Welding in the World 35 (1995),
 * second-hand; Koenig and Lange, Arch. Eisenhüttenwes. 46 (1975) 669, verified by its abstract. The plate solution
 * is a textbook one (Crank; Carslaw and Jaeger), from memory; 0.949 at the middle for tau 0.1 is its classic chart
 * value. Rows computed independently in double precision.
 */
import { expect, test } from 'vitest';
import {
  diffusivityBounds,
  meanLeft,
  middleLeft,
  residualHydrogen,
} from '../../server/metallurgy/hydrogen-diffusion.ts';

const within = (value: number, wanted: number, share: number) =>
  expect(Math.abs(value / wanted - 1)).toBeLessThan(share);

const diffusivities = [
  [20, 6.9796e-12, 1.8105e-9],
  [50, 5.3782e-11, 2.2768e-9],
  [100, 2.5205e-10, 3.0737e-9],
  [150, 6.2216e-10, 3.8654e-9],
  [200, 1.1812e-9, 4.6312e-9],
  [250, 1.9422e-9, 5.3602e-9],
  [300, 2.9157e-9, 6.0478e-9],
] as const;

for (const [celsius, steel, iron] of diffusivities) {
  test(`both diffusivities at ${celsius} °C`, () => {
    within(diffusivityBounds[0]!.squareMetresPerSecond(celsius), steel, 1e-4);
    within(diffusivityBounds[1]!.squareMetresPerSecond(celsius), iron, 1e-4);
  });
}

const plate = [
  [0.01, 0.887162, 1.0],
  [0.05, 0.747687, 0.996869],
  [0.1, 0.643177, 0.949305],
  [0.2, 0.495912, 0.772312],
  [0.5, 0.23605, 0.370777],
  [1.0, 0.0687403, 0.107977],
  [1.5, 0.0200181, 0.0314443],
] as const;

for (const [tau, mean, middle] of plate) {
  test(`mean and middle of a plate at tau ${tau}`, () => {
    expect(meanLeft(tau)).toBeCloseTo(mean, 6);
    expect(middleLeft(tau)).toBeCloseTo(middle, 6);
  });
}

test('the short-time form and the series meet within the stated errors, and small tau is no trouble', () => {
  // The series with very many terms, summed here from the smallest, against both forms at and around the change.
  for (const tau of [1e-8, 1e-6, 1e-4, 0.009, 0.01, 0.02, 0.0499999, 0.05]) {
    let mean = 0;
    let middle = 0;
    for (let n = 60_000; n >= 0; n -= 1) {
      const decay = Math.exp((-((2 * n + 1) ** 2) * Math.PI ** 2 * tau) / 4);
      mean += (8 / Math.PI ** 2) * (decay / (2 * n + 1) ** 2);
      middle += (4 / Math.PI) * ((n % 2 === 0 ? 1 : -1) * (decay / (2 * n + 1)));
    }
    expect(Math.abs(meanLeft(tau) - mean)).toBeLessThan(1e-10);
    expect(Math.abs(middleLeft(tau) - middle)).toBeLessThan(1e-10);
  }
  expect([meanLeft(0), middleLeft(0)]).toEqual([1, 1]);
});

const postHeats = [
  [25, 250, 2, 0.6624, 0.441],
  [50, 250, 2, 0.8312, 0.7196],
  [50, 300, 2, 0.7932, 0.7022],
  [80, 300, 4, 0.8172, 0.7367],
  [100, 300, 4, 0.8538, 0.7894],
  [50, 20, 48, 0.9504, 0.2357],
] as const;

for (const [thickness, celsius, hours, most, least] of postHeats) {
  test(`${thickness} mm, ${celsius} °C, ${hours} h: a range of the mean that is left`, () => {
    const left = residualHydrogen(thickness, celsius, hours)!;
    expect(left.mean.highest).toBeCloseTo(most, 4);
    expect(left.mean.lowest).toBeCloseTo(least, 4);
    expect(left.mean.highest).toBeGreaterThan(left.mean.lowest);
  });
}

test('the middle of a part of 50 mm or more has hardly noticed such a post-heat', () => {
  for (const [thickness, celsius, hours] of postHeats.filter(([d, t]) => d >= 50 && t > 20)) {
    expect(residualHydrogen(thickness, celsius, hours)!.middle.lowest).toBeGreaterThanOrEqual(0.985);
  }
});

test('outside its published range a diffusivity is used and said so; outside all sense nothing is given', () => {
  expect(residualHydrogen(50, 150, 2)!.flags).toEqual([]);
  expect(residualHydrogen(50, 250, 2)!.flags).toHaveLength(1);
  expect(residualHydrogen(50, 350, 2)!.flags).toHaveLength(2);
  expect(residualHydrogen(50, 20, 2)!.flags[0]).toContain('pure iron');
  expect([residualHydrogen(50, 500, 2), residualHydrogen(50, 0, 2)]).toEqual([undefined, undefined]);
});
