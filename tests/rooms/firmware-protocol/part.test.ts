/**
 * The emulated steel against what a textbook gives for a plate (thermal conduction of a slab): with a flux on
 * one face and the other insulated, in the quasi-steady state, the faces differ by q L / (2 k) and the mean
 * rises by q / (rho c L). The numbers k = 46 W/(m K) and rho c = 3.9 MJ/(m3 K) are the emulator's own.
 */
import { describe, expect, it } from 'vitest';
import { createPart, type EmulatedPlace, usualPart } from '../../../firmware-protocol/emulator/part.ts';

const heated: EmulatedPlace = { at: 'part', depth: 0, distanceMillimetres: 0 };
const opposite: EmulatedPlace = { at: 'part', depth: 1, distanceMillimetres: 0 };

describe('the emulated part', () => {
  it('follows the quasi-steady profile of a slab under a constant flux', () => {
    const [flux, thickness] = [10_000, 0.1];
    const part = createPart({
      ...usualPart,
      thicknessMillimetres: 100,
      heaterWattsPerSquareMetre: flux,
      lossWattsPerSquareMetreKelvin: 1e-9,
    });
    part.heater({ on: true, setPointCelsius: 10_000 });
    part.advance(3600);
    const before = part.temperatureAt(opposite);
    const between = part.temperatureAt(heated) - before;
    part.advance(600);
    // Half a layer is missing at each face: places are layer centres.
    expect(between).toBeGreaterThan(((flux * thickness) / (2 * 46)) * 0.93);
    expect(between).toBeLessThan(((flux * thickness) / (2 * 46)) * 1.0);
    expect((part.temperatureAt(opposite) - before) / 600).toBeCloseTo(flux / (3.9e6 * thickness), 5);
  });

  it('settles at ambient and at the set point', () => {
    const part = createPart(usualPart);
    part.advance(600);
    expect(part.temperatureAt(heated)).toBeCloseTo(20, 6);
    part.heater({ on: true, setPointCelsius: 150 });
    part.advance(6 * 3600);
    expect(part.temperatureAt(heated)).toBeLessThan(150);
    expect(part.temperatureAt(heated)).toBeGreaterThan(148.5);
    part.heater({ on: false, setPointCelsius: 150 });
    part.advance(48 * 3600);
    expect(part.temperatureAt(heated)).toBeLessThan(21);
  });

  it('is warmed by an arc near the groove and little 75 mm away, and cools again', () => {
    const part = createPart(usualPart);
    const near: EmulatedPlace = { at: 'part', depth: 0, distanceMillimetres: 10 };
    const far: EmulatedPlace = { at: 'part', depth: 0, distanceMillimetres: 75 };
    part.arc(true);
    part.advance(90);
    part.arc(false);
    part.advance(30);
    const risen = part.temperatureAt(near) - 20;
    expect(risen).toBeGreaterThan(25);
    expect(part.temperatureAt(far) - 20).toBeLessThan(risen / 5);
    part.advance(1800);
    expect(part.temperatureAt(near) - 20).toBeLessThan(1);
  });

  it('plays the story of a demonstration: near the minimum in 90 minutes, above it within 5 more', () => {
    const part = createPart(usualPart);
    const places = [0, 1].map((depth): EmulatedPlace => ({ at: 'part', depth, distanceMillimetres: 75 }));
    part.heater({ on: true, setPointCelsius: 139 });
    part.advance(90 * 60);
    for (const place of places) {
      expect(part.temperatureAt(place)).toBeGreaterThan(125);
      expect(part.temperatureAt(place)).toBeLessThan(144);
    }
    part.heater({ on: true, setPointCelsius: 165 });
    part.advance(4 * 60);
    for (const place of places) expect(part.temperatureAt(place)).toBeGreaterThan(145.5);
  });
});
