/** All detectors. A new one is a file in detectors/ and a line here. */
import { bus } from './detectors/bus.ts';
import { dead } from './detectors/dead.ts';
import { loose } from './detectors/loose.ts';
import { stuck } from './detectors/stuck.ts';
import type { Detector } from './view.ts';

export const detectors: readonly Detector[] = [bus, stuck, dead, loose];
