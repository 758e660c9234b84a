/** What the page of instruments shows: what is connected, and what a trial reads before anything is recorded. */
import type { Quality } from '../weld/scan.ts';

export interface ConnectionsView {
  readonly connections: readonly {
    readonly name: string;
    readonly way: string;
    readonly boards: readonly string[];
    /** Where it is read: its port, address or folder. */
    readonly place: string;
    /** Given on the command line: it is taken away there. */
    readonly fixed: boolean;
    /** The file, to be looked at and changed. */
    readonly file: unknown;
  }[];
  /** Of a restored record: not read until somebody has tried them and keeps them. */
  readonly waiting: readonly {
    readonly name: string;
    /** The file, as it stands. */
    readonly text: string;
    /** How and where it was read; absent where the file cannot be understood. */
    readonly was?: string;
  }[];
  /** Serial ports that this machine lists. */
  readonly ports: readonly { readonly path: string; readonly detail: string }[];
  /** Why nothing can be kept here; absent where it can. */
  readonly notKept?: string;
}

export interface TrialView {
  readonly instruments: readonly {
    readonly board: string;
    readonly state: 'opening' | 'waiting for hello' | 'open' | 'lost' | 'refused';
    readonly cause: string;
    readonly advice?: string;
    readonly good: number;
    readonly errors: readonly { readonly what: string; readonly times: number }[];
    readonly last?: string;
    readonly channels: readonly {
      readonly channel: number;
      readonly thermocouple: string;
      /** Absent while nothing has come. */
      readonly reading?: {
        readonly quality: Quality;
        /** Thousandths of a degree Celsius; absent unless good. */
        readonly temperature?: number;
        /** As the instrument gave it. */
        readonly said: string;
        readonly agoMilliseconds: number;
      };
    }[];
  }[];
}
