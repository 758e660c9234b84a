/** Numbers from 0 to below 1 that are the same for the same seed on every machine. */
export const random = (seed: number): (() => number) => {
  let state = (seed * 2654435761) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
};
