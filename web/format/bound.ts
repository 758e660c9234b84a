/** Keeps a number and its unit on one line: a figure without its unit at the end of a line is misread. */
export const bound = (text: string): string =>
  text.replace(
    /(\d) (?=(?:°C|°F(?:\/min)?|K\/min|K|kJ\/mm|kJ\/in|kW\/m²|W\/in²|mm|in|min|s|h|d|%)(?![A-Za-z]))/g,
    '$1\u00a0',
  );
