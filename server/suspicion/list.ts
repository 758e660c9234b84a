/** All detectors. A new one is a file in detectors/ and a line here. */
import { arc } from './detectors/arc.ts';
import { bus } from './detectors/bus.ts';
import { dead } from './detectors/dead.ts';
import { fall } from './detectors/fall.ts';
import { loose } from './detectors/loose.ts';
import { polarity } from './detectors/polarity.ts';
import { restless } from './detectors/restless.ts';
import { slow } from './detectors/slow.ts';
import { stuck } from './detectors/stuck.ts';
import { swapped } from './detectors/swapped.ts';
import { terminals } from './detectors/terminals.ts';
import { twins } from './detectors/twins.ts';
import type { Detector } from './view.ts';

export const detectors: readonly Detector[] = [
  bus,
  terminals,
  stuck,
  slow,
  arc,
  restless,
  loose,
  fall,
  dead,
  polarity,
  swapped,
  twins,
];
