/** Lamp, horn and permission of a board in words: what they say, why, and what a board that does not follow means. */

export const noInterlock =
  'Lamp, horn and permission inform; they are no safety interlock. The permission relay starts no heat and no arc, and nothing that keeps a person from harm may depend on it.';

interface Driven {
  readonly lamp: 'off' | 'on' | 'slow' | 'fast';
  readonly horn: 'off' | 'on';
  readonly permission: 'withheld' | 'given';
  readonly why: keyof typeof reasons;
}

interface Followed {
  readonly output: 'lamp' | 'horn' | 'permission' | 'heartbeat';
  readonly outcome: 'not told' | 'waiting' | 'done' | 'refused' | 'silent';
}

const reasons = {
  'no open joint': 'no open joint has a probe on it',
  ready: 'the joint is ready',
  'pass within limits': 'a pass is running within its limits',
  waiting: 'an open joint on it is not ready',
  alarm: 'an alarm that nobody has acknowledged',
  'pass outside': 'a pass is running outside its limits, or they cannot be judged',
  'not known': 'nothing is recorded, or nothing fresh is judged',
  'measures too seldom': 'the board measures too seldom: permission needs a reading every 2 s',
} as const;

const lamps = { off: 'lamp off', on: 'lamp steady', slow: 'lamp flashing slowly', fast: 'lamp flashing fast' } as const;

/** "lamp steady, horn off, permission given: ...". */
export const drivenText = ({ lamp, horn, permission, why }: Driven): string =>
  `${lamps[lamp]}, horn ${horn}, permission ${permission}: ${reasons[why]}`;

/** What the board does not do as told, with what to look at; empty while it follows. */
export const notFollowed = (outputs: readonly Followed[]): string[] =>
  outputs.flatMap(({ output, outcome }) => {
    if (outcome === 'refused') return [`The board has no ${names[output]}, or refuses it: nobody is told that way.`];
    if (outcome === 'silent')
      return [`The board does not answer for its ${names[output]}: go and look what it shows, and check its cable.`];
    return [];
  });

const names = { lamp: 'lamp', horn: 'horn', permission: 'permission relay', heartbeat: 'heartbeat' } as const;
