/**
 * Colours for temperature, made for this page: from a dark blue over rose to a light yellow. In OKLCH (CSS Color 4)
 * lightness and hue go in even steps at one chroma, so that equal differences look equal; and since the lightness only
 * ever grows, the order is the same in grey and for every kind of colour vision.
 */

/** Red, green, blue from 0 to 255. */
export type Colour = readonly [red: number, green: number, blue: number];

const cold = { lightness: 0.29, hue: 275 };
const hot = { lightness: 0.945, hue: 463 };
const chroma = 0.118;

/** From 0, coldest, to 1, hottest; beyond the ends the ends. */
export const colourAt = (part: number): Colour =>
  colours[Math.round(Math.min(1, Math.max(0, part)) * (colours.length - 1))]!;

export const cssColour = ([red, green, blue]: Colour): string => `rgb(${red} ${green} ${blue})`;

/** How far a temperature lies between two others. */
export const partOf = (value: number, { low, high }: { readonly low: number; readonly high: number }): number =>
  high > low ? (value - low) / (high - low) : 0;

/** sRGB of a colour in OKLCH: the matrices of CSS Color 4. */
const fromOklch = (lightness: number, hue: number): Colour => {
  const angle = (hue * Math.PI) / 180;
  const [a, b] = [chroma * Math.cos(angle), chroma * Math.sin(angle)];
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
    encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
    encoded(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s),
  ];
};

const encoded = (linear: number): number => {
  const value = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
  return Math.round(Math.min(1, Math.max(0, value)) * 255);
};

const colours: readonly Colour[] = Array.from({ length: 128 }, (_, index) => {
  const part = index / 127;
  return fromOklch(cold.lightness + part * (hot.lightness - cold.lightness), cold.hue + part * (hot.hue - cold.hue));
});
