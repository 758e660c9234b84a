/** What a reading of a probe comes through, out of the register of instruments: wire, extension cable, board or module. */

import type { Instrument } from '../weld/instrument.ts';
import { noExtension } from '../weld/instrument-checks.ts';
import type { Probe } from '../weld/probe.ts';

export interface Chain {
  readonly wire?: Instrument;
  /** 'none': the probe's own wire goes to the board. Absent: nobody said. */
  readonly extension?: Instrument | typeof noExtension;
  /** The module of its channel where the register has one, else the board. */
  readonly converter?: Instrument;
}

export function chainOf(probe: Probe, register: readonly Instrument[]): Chain {
  const byId = (id: string | undefined): Instrument | undefined => register.find((each) => each.id === id);
  const wire = byId(probe.wire);
  const extension = probe.extension === noExtension ? noExtension : byId(probe.extension);
  const onBoard = register.filter(({ board }) => board === probe.board);
  const converter =
    onBoard.find(({ kind, channels }) => kind === 'module' && channels?.includes(probe.channel) === true) ??
    onBoard.find(({ kind }) => kind === 'board');
  return {
    ...(wire === undefined ? {} : { wire }),
    ...(extension === undefined ? {} : { extension }),
    ...(converter === undefined ? {} : { converter }),
  };
}

/** The instruments of the chain that are in the register. */
export const calibratedOf = ({ wire, extension, converter }: Chain): Instrument[] =>
  [wire, extension === noExtension ? undefined : extension, converter].filter((each) => each !== undefined);
