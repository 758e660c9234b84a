/** Labels beside each other without overlap, each as near its place as can be. One dimension; pixels or any unit. */

/** Returns positions in the order of the input. If all do not fit between the bounds they are squeezed evenly. */
export const spread = (wanted: readonly number[], size: number, low: number, high: number): number[] => {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const room = high - low;
  const gap = order.length > 1 ? Math.min(size, room / (order.length - 1)) : size;
  // Groups that touch move together, each to the mean of what its members want.
  const groups: { sum: number; count: number }[] = [];
  const start = ({ sum, count }: { sum: number; count: number }): number => {
    const span = (count - 1) * gap;
    return Math.min(Math.max(sum / count - span / 2, low), high - span);
  };
  for (const index of order) {
    groups.push({ sum: Math.min(Math.max(wanted[index]!, low), high), count: 1 });
    while (groups.length > 1) {
      const last = groups.at(-1)!;
      const before = groups.at(-2)!;
      if (start(before) + before.count * gap <= start(last) + 1e-9) break;
      groups.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  }
  const placed = new Array<number>(wanted.length).fill(0);
  let next = 0;
  for (const group of groups) {
    for (let member = 0; member < group.count; member += 1) {
      placed[order[next]!] = start(group) + member * gap;
      next += 1;
    }
  }
  return placed;
};
