/**
 * Which speed a port is opened with. Only where what comes is no text at the stated speed are others tried, each once;
 * the speed at which a board answered stays.
 */

/** Usual speeds of boards, most usual first. Own choice of order. */
const usualRates: readonly number[] = [115_200, 9_600, 57_600, 38_400, 19_200, 230_400, 250_000, 460_800];

export interface BaudSearch {
  rate(): number;
  /** What came was no text: goes to the next speed. False once all were tried. */
  next(): boolean;
  tried(): readonly number[];
  /** From the stated speed again. */
  restart(): void;
}

export function createBaudSearch(stated: number): BaudSearch {
  const rates = [stated, ...usualRates.filter((rate) => rate !== stated)];
  let index = 0;
  return {
    rate: () => rates[index]!,
    next: () => {
      if (index + 1 >= rates.length) return false;
      index += 1;
      return true;
    },
    tried: () => rates.slice(0, index + 1),
    restart: () => {
      index = 0;
    },
  };
}
