/** Times of lamp, horn and permission. None can change a verdict; each is this project's own choice unless a source is named. */
export const bounds = {
  /** A board withholds permission by itself after 5 s without a heartbeat: stated in PROTOCOL.md. */
  boardWithoutHeartbeat: 5_000,
  /** At most one heartbeat each so often. PROTOCOL.md asks for one in 2 s. */
  heartbeatEvery: 1_000,
  /** A board that measures less often gives too few commits for its heartbeat: it is never given permission. */
  periodMaximum: 2_000,
  /** Older than this, what was judged or measured is not the present: permission is taken back. Two periods and a second. */
  fresh: 5_000,
  /** What stands is said again, so that a board that lost it has it. */
  again: 10_000,
  /** No reply for so long: the command may be given again (PROTOCOL.md, section 7). */
  reply: 2_000,
  /** Commands in a row without a reply until the output counts as silent. */
  silentAfter: 3,
} as const;
