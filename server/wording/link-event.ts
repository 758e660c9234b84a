/** What happened between a board and the station, and to the station itself, in one sentence each. */
import type { Milliseconds } from '../measure/quantity.ts';
import type { StationEvent } from '../weld/entry.ts';
import { durationText } from './time.ts';

export type LinkEvent = StationEvent & { readonly kind: 'board' | 'twin' | 'suspended' };

export function linkEventText(event: LinkEvent): string {
  switch (event.kind) {
    case 'board': {
      const { board, port, movedFrom, firmware, boot, simulated, connection } = event;
      if (connection !== undefined) return `Instrument ${board} at ${port}, read by ${firmware}`;
      const where = movedFrom === undefined ? `on ${port}` : `was moved from ${movedFrom} to ${port} and goes on there`;
      return `Board ${board} ${where}, firmware ${firmware}, boot ${boot}${simulated ? ', an emulator' : ''}`;
    }
    case 'twin':
      return `Two boards say that they are ${event.board}: the one on ${event.heldOn} is read, the one on ${event.port} is not. See that the right one is read`;
    case 'suspended':
      return `The station's computer slept or stood still for ${durationText(event.milliseconds as Milliseconds)}: nothing was heard or judged meanwhile`;
  }
}
