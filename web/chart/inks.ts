/** The colours of the page's style as the canvas needs them; the style sheet stays the one place that names them. */
import type { Inks } from './layers.ts';

export const inksOf = (): Inks => {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: of('--ink'),
    faint: of('--ink-2'),
    grid: of('--rule'),
    ground: of('--sheet'),
    blank: of('--blank'),
    pass: of('--pass'),
    alarm: of('--alarm'),
    font: getComputedStyle(document.body).fontFamily,
  };
};
