/** Bytes become lines, for one opening: the first is dropped, since the opening may have cut it, and none is held beyond a bound. */
import { limits } from '../../measure/limits.ts';

export interface LineCutter {
  take(bytes: Uint8Array): void;
}

/** `end`: the character that ends a line; the other of CR and LF is passed over. */
export const createLineCutter = (
  end: 'LF' | 'CR',
  onLine: (line: string) => void,
  onTooLong: () => void,
): LineCutter => {
  const mark = end === 'LF' ? 10 : 13;
  let text = '';
  let isCut = true;
  let isTooLong = false;
  return {
    take(bytes) {
      for (const byte of bytes) {
        if (byte !== mark) {
          if (text.length < limits.textLineMaximum) {
            if (byte >= 32 || byte === 9) text += String.fromCharCode(byte);
          } else isTooLong = true;
          continue;
        }
        const line = text;
        const fits = !isTooLong;
        const whole = !isCut;
        text = '';
        isTooLong = false;
        isCut = false;
        if (!whole) continue;
        if (!fits) onTooLong();
        else if (line.trim() !== '') onLine(line);
      }
    },
  };
};
