/**
 * Three finished jobs of the invented workshop, made by emulated boards and the real trip: into a record that is begun
 * for them, on a clock that starts `shiftHours` before the time that is asked for.
 */
import { milliseconds } from '../../measure/quantity.ts';
import type { Program } from '../../program.ts';
import { createFastClock } from '../fast-clock.ts';
import { startStation } from '../station.ts';
import { baysOf, openBays } from './bay.ts';
import { shiftJobs } from './courses.ts';
import { people, signOnCrew } from './crew.ts';
import { playShift, shiftPeriod } from './play.ts';

/** The longest of the jobs with its wait before testing, and some time to spare. */
const shiftHours = 24;

export interface ShiftOptions {
  /** Of the record; begun here, with the people of the workshop beside it. */
  readonly folder: string;
  /** Where the joint files are. */
  readonly joints: URL;
  readonly program: Program;
  /** How long before now the clock stands at the latest when all is over, milliseconds. */
  readonly before: number;
  readonly tell: (line: string) => void;
}

/** Who can sign on at that station afterwards, as administrator. */
export interface SignOnOfShift {
  readonly name: string;
  readonly password: string;
}

export async function workShift({ folder, joints, program, before, tell }: ShiftOptions): Promise<SignOnOfShift> {
  const clock = createFastClock(before + shiftHours * 3_600_000);
  const bays = baysOf(shiftJobs, joints, shiftPeriod);
  const station = await startStation({
    folder,
    begin: true,
    ports: bays.map(({ path }) => path),
    openPort: openBays(bays),
    clock,
    platform: process.platform,
    httpPort: 0,
    host: '127.0.0.1',
    // Nobody looks while it is played.
    webFolder: folder,
    program,
    demonstration: {},
    tell,
  });
  try {
    const crew = await signOnCrew(folder, clock.wall);
    await playShift(bays, { station, clock, crew }, milliseconds(shiftHours * 3_600_000));
    return { name: people.coordinator.name, password: crew.password };
  } finally {
    await station.close();
  }
}
