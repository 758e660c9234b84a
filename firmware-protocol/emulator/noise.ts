/** Random numbers that are the same for the same seed on every machine. */

export interface Noise {
  /** Evenly from 0 up to, not including, 1. */
  even(): number;
  /** Bell-shaped, mean 0, standard deviation 1. */
  bell(): number;
  /** Integer from 0 up to, not including, the end. */
  below(end: number): number;
}

/** A 32-bit state stepped by an odd constant (Weyl sequence) and mixed by multiply and shift. */
export const createNoise = (seed: number): Noise => {
  let state = seed >>> 0;
  const even = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x21f0aaad);
    mixed ^= mixed >>> 15;
    mixed = Math.imul(mixed, 0x735a2d97);
    mixed ^= mixed >>> 15;
    return (mixed >>> 0) / 4294967296;
  };
  return {
    even,
    bell: () => {
      // Twelve even draws less six: mean 0, deviation 1, and no logarithm that machines may round apart.
      let sum = -6;
      for (let draw = 0; draw < 12; draw += 1) sum += even();
      return sum;
    },
    below: (end) => Math.floor(even() * end),
  };
};
