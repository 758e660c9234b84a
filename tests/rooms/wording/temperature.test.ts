import { describe, expect, it } from 'vitest';
import type { MilliCelsius, Millikelvin } from '../../../server/measure/quantity.ts';
import {
  atMostText,
  differenceLimitText,
  differenceText,
  limitText,
  ofLimitText,
  shownDegrees,
  temperatureFigure,
  temperatureText,
  trendText,
} from '../../../server/wording/temperature.ts';

const milli = (value: number): MilliCelsius => value as MilliCelsius;
const kelvin = (value: number): Millikelvin => value as Millikelvin;
const limit = milli(150_000);

describe('a temperature as text', () => {
  it.each([
    [20_000, '20 °C'],
    [127_499, '127 °C'],
    [127_500, '128 °C'],
    [-400, '0 °C'],
    [-4_600, '\u22125 °C'],
    [0, '0 °C'],
  ])('is whole degrees away from a limit: %i', (value, text) => {
    expect(temperatureText(milli(value), 'metric')).toBe(text);
    expect(temperatureText(milli(value), 'metric', { limit })).toBe(text);
  });

  it.each([
    [148_999, '149 °C'],
    [149_000, '149.0 °C'],
    [149_444, '149.4 °C'],
    [149_949, '149.9 °C'],
    [149_960, '149.9 °C'],
    [149_999, '149.9 °C'],
    [150_000, '150.0 °C'],
    [150_001, '150.1 °C'],
    [150_040, '150.1 °C'],
    [150_060, '150.1 °C'],
    [151_000, '151.0 °C'],
    [151_001, '151 °C'],
  ])('has one decimal within 1 K of a limit and stays on its side of it: %i', (value, text) => {
    expect(temperatureText(milli(value), 'metric', { limit })).toBe(text);
  });

  it('shows a finer limit in full and stays on its side of that too', () => {
    const fine = milli(148_890);
    expect(limitText(fine, 'metric')).toBe('148.89 °C');
    expect(temperatureText(milli(148_880), 'metric', { limit: fine })).toBe('148.8 °C');
    expect(temperatureText(milli(148_890), 'metric', { limit: fine })).toBe('148.89 °C');
    expect(temperatureText(milli(148_895), 'metric', { limit: fine })).toBe('148.9 °C');
  });

  it('stays between two limits that are closer than a tenth', () => {
    const both = { limit: [milli(150_010), milli(150_030)] };
    expect(temperatureText(milli(150_020), 'metric', both)).toBe('150.02 °C');
  });

  it('never shows a value on the wrong side of its limit, nor on it', () => {
    for (const bound of [150_000, 148_890, 100_001, -20_000, 0]) {
      for (let value = bound - 1500; value <= bound + 1500; value += 1) {
        const shown =
          Number(temperatureFigure(milli(value), 'metric', { limit: milli(bound) }).replace('\u2212', '-')) * 1000;
        const right =
          value < bound
            ? Math.round(shown) < bound
            : value > bound
              ? Math.round(shown) > bound
              : Math.round(shown) === bound;
        if (!right) expect.fail(`${value} against ${bound} reads ${shown}`);
      }
    }
  });

  it('takes no limit for an answer', () => {
    expect(ofLimitText(milli(149_960), undefined, 'metric')).toBe('150 °C');
    expect(ofLimitText(milli(128_200), limit, 'metric')).toBe('128 °C of 150 °C');
    expect(atMostText(milli(250_010), milli(250_000), 'metric')).toBe('250.1 °C, at most 250 °C');
  });

  it('words differences and trends', () => {
    expect(differenceText(kelvin(12_400), 'metric')).toBe('12 K');
    expect(differenceText(kelvin(30_020), 'metric', { limit: kelvin(30_000) })).toBe('30.1 K');
    expect(trendText(kelvin(3_240), 'metric')).toBe('rising 3.2 K/min');
    expect(trendText(kelvin(-12_600), 'metric')).toBe('falling 13 K/min');
    expect(trendText(kelvin(99), 'metric')).toBe('steady');
    expect(trendText(kelvin(-100), 'metric')).toBe('falling 0.1 K/min');
  });
});

describe('a temperature as text in a job in Fahrenheit', () => {
  // 225 °F as it is kept: 107.222 °C in thousandths.
  const stated = milli(107_222);

  it('gives a limit back as it was stated', () => {
    expect(limitText(stated, 'inch')).toBe('225 °F');
    expect(limitText(milli(150_000), 'inch')).toBe('302 °F');
    expect(limitText(milli(-40_000), 'inch')).toBe('\u221240 °F');
    for (let fahrenheit = 0; fahrenheit <= 700; fahrenheit += 1) {
      const kept = milli(Math.round(((fahrenheit - 32) / 1.8) * 1000));
      expect(limitText(kept, 'inch')).toBe(`${fahrenheit} °F`);
      expect(temperatureText(kept, 'inch', { limit: kept })).toBe(`${fahrenheit}.0 °F`);
    }
  });

  it.each([
    [20_000, '68 °F'],
    [105_000, '221 °F'],
    [106_222, '223.2 °F'],
    [107_221, '224.9 °F'],
    [107_222, '225.0 °F'],
    [107_223, '225.1 °F'],
    [108_300, '227 °F'],
  ])('never stands on the wrong side of the limit: %i', (value, text) => {
    expect(temperatureText(milli(value), 'inch', { limit: stated })).toBe(text);
  });

  it('converts a difference and a trend as differences', () => {
    expect(differenceText(kelvin(10_000), 'inch')).toBe('18 °F');
    expect(differenceLimitText(kelvin(30_000), 'inch')).toBe('54 °F');
    expect(trendText(kelvin(3_000), 'inch')).toBe('rising 5.4 °F/min');
    expect(shownDegrees(100_000, 'inch')).toBe(212);
    expect(shownDegrees(100_000, 'metric')).toBe(100);
  });
});
