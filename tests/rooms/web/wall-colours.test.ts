import { expect, test } from 'vitest';
import { type Colour, colourAt } from '../../../web/parts/wall/colours.ts';

const steps = Array.from({ length: 25 }, (_, index) => colourAt(index / 24));

test('the colours grow lighter all the way, so that they read in grey', () => {
  const lightness = steps.map((colour) => labOf(colour)[0]);
  for (const [index, each] of lightness.entries())
    if (index > 0) expect(each - lightness[index - 1]!, `step ${index}`).toBeGreaterThan(2);
  expect(lightness[0]).toBeLessThan(20);
  expect(lightness.at(-1)).toBeGreaterThan(90);
});

test('equal steps look about equal: no step is twice the middle one, none less than half', () => {
  const sizes = steps.slice(1).map((colour, index) => apart(colour, steps[index]!));
  const middle = sizes.toSorted((a, b) => a - b)[12]!;
  for (const size of sizes) {
    expect(size).toBeLessThan(2 * middle);
    expect(size).toBeGreaterThan(0.5 * middle);
  }
});

test.each(['protan', 'deutan'] as const)('the order is the same for %s vision', (kind) => {
  const lightness = steps.map((colour) => labOf(seenBy(colour, kind))[0]);
  expect(lightness).toEqual(lightness.toSorted((a, b) => a - b));
  expect(lightness.at(-1)! - lightness[0]!).toBeGreaterThan(65);
});

test('beyond the ends stand the ends', () => {
  expect(colourAt(-1)).toEqual(colourAt(0));
  expect(colourAt(2)).toEqual(colourAt(1));
});

/** CIE L*a*b* with white D65, from sRGB: CIE 15 and IEC 61966-2-1. From memory; white comes out as L* 100, a* and b* 0. */
function labOf(colour: Colour): [number, number, number] {
  const [r, g, b] = colour.map(linear) as [number, number, number];
  const x = (0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047;
  const y = 0.2126729 * r + 0.7151522 * g + 0.072175 * b;
  const z = (0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883;
  const [fx, fy, fz] = [x, y, z].map((t) => (t > 216 / 24389 ? Math.cbrt(t) : (t * 24389) / 27 / 116 + 16 / 116)) as [
    number,
    number,
    number,
  ];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

test('the measure itself: white is L* 100 and grey has no colour', () => {
  expect(labOf([255, 255, 255])[0]).toBeCloseTo(100, 3);
  const [, a, b] = labOf([128, 128, 128]);
  expect(Math.hypot(a, b)).toBeLessThan(0.01);
});

const apart = (one: Colour, other: Colour): number => {
  const [a, b] = [labOf(one), labOf(other)];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
};

/** What is seen without one kind of cone: Machado, Oliveira and Fernandes 2009, severity 1. From memory; each row sums to 1. */
const cones = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
} as const;

function seenBy(colour: Colour, kind: keyof typeof cones): Colour {
  const light = colour.map(linear);
  return cones[kind].map((row) => {
    const value = row.reduce<number>((sum, share, index) => sum + share * light[index]!, 0);
    return encoded(Math.min(1, Math.max(0, value)));
  }) as unknown as Colour;
}

function linear(value: number): number {
  const part = value / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
}

function encoded(value: number): number {
  return 255 * (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055);
}
