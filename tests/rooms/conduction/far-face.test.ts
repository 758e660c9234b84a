/**
 * A probe on the far face. The walls that are read here are computed by another run of conduction, with a loss of their
 * own that the section is not told, and their readings are noisy.
 */
import { describe, expect, it, test } from 'vitest';
import { filmOf } from '../../../server/conduction/face-link.ts';
import { copyFarFace, createFarFace, driveFarFace, farFaceDoubt } from '../../../server/conduction/far-face.ts';
import { farLossOf } from '../../../server/conduction/far-loss.ts';
import { createField, held, losing } from '../../../server/conduction/field.ts';
import type { FarCondition, Loss } from '../../../server/conduction/loss.ts';
import {
  copySection,
  createSection,
  driveSection,
  type SectionStart,
  sectionTimeConstant,
} from '../../../server/conduction/section.ts';
import { depthOf, type Shape, taperOf } from '../../../server/conduction/shape.ts';
import { carbonSteel } from '../../../server/conduction/steel/carbon.ts';
import { step } from '../../../server/conduction/step.ts';
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { rampTo, second, taken } from '../../support/driven-wall.ts';
import { random } from '../../support/random.ts';

interface Played {
  readonly thickness?: number;
  readonly shape?: Shape;
  readonly far?: FarCondition;
  /** What the far face really gives away, and how the steel really conducts. */
  readonly loss?: Loss;
  /** From one hour on. */
  readonly lossLater?: Loss;
  readonly conducts?: number;
  readonly noiseKelvin?: number;
  readonly uncertaintyKelvin?: number;
  readonly front?: (at: number) => number;
  /** What the far probe makes of the far face. */
  readonly read?: (celsius: number, at: number) => number | undefined;
  readonly start?: Partial<SectionStart>;
}

/** A place that is played second by second. */
function playing(played: Played) {
  const { thickness = 100, loss = { convection: 6, emissivity: 0.8 }, conducts = 1, noiseKelvin = 0.5 } = played;
  const { uncertaintyKelvin = 1.5, front = rampTo(160, 300), read = (celsius: number) => celsius } = played;
  const shape: Shape = played.shape ?? { kind: 'plate', thicknessMillimetres: thickness };
  const start: SectionStart = { at: second(0), faceCelsius: 20, inside: 'as the face', ...played.start };
  const spec = { shape, steel: carbonSteel, far: played.far ?? 'unknown', farProbe: true, ambientCelsius: 20 } as const;
  const section = taken(createSection(spec, start));
  const farFace = createFarFace(section, start);
  const made = {
    steel: carbonSteel,
    depth: depthOf(shape),
    taper: taperOf(shape),
    cells: 40,
    conductivityFactor: conducts,
  };
  const truth = createField(made, start.faceCelsius);
  const chance = random(7);
  const noisy = (celsius: number) => milliCelsius(celsius + noiseKelvin * (chance() + chance() - 1));
  let at = 0;
  const air = () => {
    const { convection, emissivity } = at > 3600 && played.lossLater !== undefined ? played.lossLater : loss;
    return losing(20, convection, emissivity);
  };
  return {
    section,
    farFace,
    truth,
    film: () => filmOf(air(), truth.backCelsius),
    play(until: number, state = { section, farFace }) {
      for (; at < until; ) {
        at += 1;
        step(truth, 1, held(front(at)), air());
        const far = read(truth.backCelsius, at);
        const [a, b] = [noisy(front(at)), far === undefined ? undefined : noisy(far)];
        expect(driveSection(state.section, second(at), a, b)).toBeUndefined();
        expect(driveFarFace(state.farFace, state.section, second(at), a, uncertaintyKelvin)).toBeUndefined();
      }
      return this;
    },
    found: () => farLossOf(farFace.loss, section.likely, uncertaintyKelvin),
    doubt: () => farFaceDoubt(farFace, section),
  };
}

describe('the loss of the far face', () => {
  const draught = { convection: 25, emissivity: 0.9 };
  test.each<[string, Played]>([
    ['draught, 100 mm', { loss: draught }],
    ['draught, steel that conducts a tenth better', { loss: draught, conducts: 1.1 }],
    ['draught, 200 mm', { thickness: 200, loss: draught }],
    ['still air, 250 mm', { thickness: 250 }],
    ['water behind it', { thickness: 60, far: 'colder mass or fluid', loss: { convection: 300, emissivity: 0 } }],
    [
      'draught in a tube',
      {
        shape: { kind: 'tube', front: 'outside', thicknessMillimetres: 120, outsideDiameterMillimetres: 600 },
        loss: draught,
      },
    ],
  ])('%s: found within its uncertainty, which is under half of it', (_name, played) => {
    const place = playing({ uncertaintyKelvin: 0.5, ...played }).play(7200);
    const { coefficient, uncertainty } = taken(place.found());
    expect(uncertainty).toBeLessThanOrEqual(coefficient / 2);
    expect(Math.abs(coefficient - place.film())).toBeLessThan(uncertainty);
  });

  it('is found within 3 % where readings and steel are exact', () => {
    const place = playing({ loss: draught, noiseKelvin: 0 }).play(7200);
    const { coefficient } = taken(farLossOf(place.farFace.loss, place.section.likely, 0.1));
    expect(Math.abs(coefficient / place.film() - 1)).toBeLessThan(0.03);
  });

  it('follows a draught that begins, and has forgotten the still air after six time constants', () => {
    const place = playing({ noiseKelvin: 0.2, uncertaintyKelvin: 0.2, thickness: 150, lossLater: draught }).play(3600);
    const [still, stillFilm] = [taken(place.found()), place.film()];
    expect(Math.abs(still.coefficient - stillFilm)).toBeLessThan(still.uncertainty);
    place.play(3600 + 6 * 750);
    expect(place.film()).toBeGreaterThan(2 * stillFilm);
    expect(Math.abs(taken(place.found()).coefficient / place.film() - 1)).toBeLessThan(0.05);
  });

  it.each([
    ['a thin wall', { thickness: 15 }, 3600],
    ['nothing gathered yet', {}, 60],
    ['no loss to be found', { loss: { convection: 0, emissivity: 0 } }, 7200],
    ['a bar, which has no far face', { shape: { kind: 'bar', diameterMillimetres: 150 } }, 3600],
  ] as [string, Played, number][])('can not be told: %s', (_name, played, until) => {
    expect(
      playing({ read: (celsius) => celsius, ...played })
        .play(until)
        .found(),
    ).toMatchObject({
      refused: 'not told by these readings',
    });
  });
});

describe('the watch over the far probe', () => {
  it.each<[string, Played]>([
    ['as it should be', {}],
    ['in a draught, and noisy', { loss: { convection: 25, emissivity: 0.9 }, noiseKelvin: 3 }],
    ['behind insulation', { loss: { convection: 0, emissivity: 0 } }],
    ['on steel at the end of its spread', { conducts: 0.82 }],
    [
      'wrong by no more than its uncertainty',
      { read: (celsius) => celsius - 1.4, conducts: 1, loss: { convection: 25, emissivity: 0.9 } },
    ],
    [
      'on a part of which the inside was not known',
      { start: { faceCelsius: 60, inside: 'not known' }, front: (at) => Math.min(160, 60 + at / 12) },
    ],
    ['where a mass takes what it likes', { far: 'colder mass or fluid', loss: { convection: 400, emissivity: 0 } }],
  ])('finds nothing: %s', (_name, played) => {
    const place = playing(played);
    for (let until = 200; until <= 6000; until += 200) expect(place.play(until).doubt(), `${until} s`).toBeUndefined();
  });

  it.each<[string, (celsius: number, at: number) => number, 'above' | 'below']>([
    [
      'lost its contact and reads towards the air',
      (celsius, at) => (at < 3000 ? celsius : 20 + (celsius - 20) * 0.6),
      'below',
    ],
    ['stays where it was', (celsius, at) => (at < 600 ? celsius : 40), 'below'],
    ['reads the heater', (celsius, at) => (at < 3000 ? celsius : celsius + 60), 'above'],
  ])('finds one that %s, after three time constants and not before', (_name, read, side) => {
    const place = playing({ read });
    const first = () => {
      for (let until = 20; until <= 9000; until += 20) {
        const doubt = place.play(until).doubt();
        if (doubt !== undefined) return { doubt, at: until };
      }
      throw new Error('nothing was found');
    };
    const { doubt, at } = first();
    expect(doubt.refused).toBe('probe or contact suspect');
    expect(doubt.because).toContain(`${doubt.measured / 1000} °C`);
    if (side === 'below') expect(doubt.measured).toBeLessThan(doubt.low - 1500);
    else expect(doubt.measured).toBeGreaterThan(doubt.high + 1500);
    const wait = (at - doubt.since / 1000) / (sectionTimeConstant(place.section) / 1000);
    expect(wait).toBeGreaterThan(2.95);
    expect(wait).toBeLessThan(3.2);
  });

  it('has no doubt any more once the probe reads again what it should', () => {
    const place = playing({ read: (celsius, at) => (at > 1000 && at < 4500 ? 40 : celsius) });
    expect(place.play(4400).doubt()).toBeDefined();
    expect(place.play(4600).doubt()).toBeUndefined();
  });
});

it('a copy goes on exactly as the original, also through JSON', () => {
  const read = (celsius: number, at: number) => (at % 7 === 0 ? undefined : at < 900 ? celsius : 40);
  const whole = playing({ read }).play(2500);
  const parts = playing({ read }).play(1234);
  const copy = {
    section: copySection(parts.section),
    farFace: JSON.parse(JSON.stringify(copyFarFace(parts.farFace))) as typeof parts.farFace,
  };
  parts.play(2500, copy);
  expect(copy).toEqual({ section: whole.section, farFace: whole.farFace });
  // The original stayed where it was when it was copied.
  expect(parts.farFace.at).toBeLessThan(second(1235));
});

it('an uncertainty that is no number is refused', () => {
  const { section, farFace } = playing({});
  expect(driveFarFace(farFace, section, second(1), milliCelsius(20), Number.NaN)).toMatchObject({
    refused: 'not a number',
  });
});
