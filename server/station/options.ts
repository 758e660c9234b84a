/** What a station is put together from; every thing that touches the world is handed in. */
import type { Clock } from '../measure/clock.ts';
import type { Program } from '../program.ts';
import type { Disk } from '../record/database.ts';
import type { Connection } from '../weld/connection/connection.ts';
import type { Outside } from '../wire/connection/open-connection.ts';
import type { PortWatch } from '../wire/link-keeper.ts';
import type { OpenPort } from '../wire/port.ts';
import type { UsbRule } from '../wire/usb-rule.ts';
import type { KeepingOptions } from './keeping.ts';

export interface StationOptions {
  readonly folder: string;
  readonly begin: boolean;
  /** Where the record is written, if not through SQLite as it is shipped: for tests of a disk that fails. */
  readonly disk?: Disk;
  /** Program of the threads for long work, if not the one that stands beside this: tests start the built one in a third of the time. */
  readonly errandProgram?: URL;
  readonly ports: readonly string[];
  /** USB adapters that are opened wherever they are plugged in. */
  readonly usb?: readonly UsbRule[];
  /** How it is known what is plugged in; absent where ports are played. */
  readonly watch?: PortWatch;
  readonly baudRate?: number;
  readonly openPort: OpenPort;
  /** Instruments that do not speak the lines of a board, and what reading them touches of the world. */
  readonly connections?: readonly Connection[];
  readonly outside?: Outside;
  readonly clock: Clock;
  readonly platform: string;
  readonly httpPort: number;
  readonly host: string;
  readonly webFolder: string;
  readonly program: Program;
  /** When the record is looked at as a whole, and where its copies go; absent: never. */
  readonly keeping?: KeepingOptions;
  /** Drive lamp, horn and permission of the boards. Off unless asked: a board without them must work. */
  readonly signals?: boolean;
  /** Set where this is a demonstration; with words for the screen where there is something to say. */
  readonly demonstration?: { readonly remark?: string };
  /** For what an operator has to see on the terminal. */
  readonly tell: (line: string) => void;
}
