/** What every inlet of readings hands to the pipeline, whatever the hardware. */
import type { Hello, Sample } from '../../firmware-protocol/codec/frame.ts';
import type { Instant } from '../measure/quantity.ts';
import type { Connection } from '../weld/connection/connection.ts';
import type { Hole } from '../weld/hole.ts';
import type { Told } from '../weld/told.ts';

export type WireEvent =
  | {
      readonly type: 'hello';
      readonly port: string;
      readonly hello: Hello;
      /** Where it is no board but an instrument that was connected: the hello is made of this. */
      readonly connection?: Connection;
      readonly arrivedAt: Instant;
    }
  | {
      readonly type: 'sample';
      readonly port: string;
      /** Identity from the hello of this opening; samples before a hello are not handed on. */
      readonly board: string;
      readonly sample: Sample;
      readonly arrivedAt: Instant;
    }
  | {
      readonly type: 'told';
      readonly port: string;
      readonly board: string;
      readonly told: Told;
      readonly arrivedAt: Instant;
    }
  | {
      readonly type: 'hole';
      readonly port: string;
      readonly board: string;
      readonly hole: Hole;
      readonly arrivedAt: Instant;
    }
  /** Two boards say the same identity at the same time; the one on this port is not read. */
  | {
      readonly type: 'twin';
      readonly port: string;
      readonly board: string;
      readonly heldOn: string;
      readonly arrivedAt: Instant;
    }
  | {
      readonly type: 'link';
      readonly port: string;
      readonly board?: string;
      readonly state: 'opening' | 'waiting for hello' | 'open' | 'lost' | 'refused';
      readonly cause: string;
      /** What a person can do about it, for this operating system. */
      readonly advice?: string;
      /** It is not tried again until it is plugged in anew or somebody asks for it. */
      readonly leftAlone?: boolean;
      readonly arrivedAt: Instant;
    };

export interface LinkCounts {
  readonly linesGood: number;
  readonly linesBad: number;
  /** Sequence numbers that never came. */
  readonly linesMissing: number;
  readonly bytesDropped: number;
}
