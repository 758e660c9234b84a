/** The path of a field in words, for lists of what is still to be mended. */

/** "parts.0.thicknessMillimetres" as a person would say it: "Part 1, thickness". */
export const fieldWords = (path: string): string => {
  const words = path
    .split('.')
    .map((step) =>
      /^\d+$/.test(step)
        ? String(Number(step) + 1)
        : (ownWords[step] ??
          step
            .replace(endings, '')
            .replace(/([a-z])([A-Z])/g, '$1 $2')
            .toLowerCase()),
    )
    .join(' ')
    .replace(
      /\b(part|probe|analyse|chart reading)s (\d+)/g,
      (_, noun: string, number: string) => `${noun === 'analyse' ? 'analysis' : noun} ${number},`,
    )
    .replace(/\bpercent (\w+)$/, (_, element: string) => element.charAt(0).toUpperCase() + element.slice(1))
    .trim()
    .replace(/,$/, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** Units at the end of a name, which say nothing that the field itself does not. */
const endings = /(Celsius|Millimetres|Kelvin|Minutes|Megapascals|Seconds|Percent|KilojoulesPerMillimetre)$/;
const ownWords: Readonly<Record<string, string>> = {
  kilojoulesPerMillimetre: '',
  millimetresPerSecond: 'travel speed',
  instantaneousJoules: 'energy of the bead',
  instantaneousWatts: 'power',
  beadMillimetres: 'length of the bead',
  celsius: 'temperature',
  airCelsius: 'lowest air temperature',
  halfWidthMillimetres: 'half-width',
  conductsAs: 'thermal properties',
};
