/** Groups of phases that several rooms ask for. */
import type { Phase } from '../assessment.ts';

/** All is cold still: what is read is how the probes are, and not yet the heat. */
export const isBeforeHeat = (phase: Phase): boolean => phase === 'planned' || phase === 'checking';

/** From the first arc to the last, with none burning. */
export const isBetweenArcs = (phase: Phase): boolean => phase === 'between passes' || phase === 'interrupted';
