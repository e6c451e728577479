/**
 * Moves labels apart along one direction, as little as can be: each stays as near to its own place as the others allow, their order is kept.
 *
 * Neighbours that would overlap form a group that is centred on the mean of what its members want (pool adjacent violators), so the
 * sum of squared shifts is least.
 *
 * @param wanted centre of each label
 * @param sizes extent of each label along the direction, the same order
 * @returns centres; they may pass `most` only where all labels together have no room between `least` and `most`
 */
export function spreadLabels(
  wanted: readonly number[],
  sizes: readonly number[],
  least: number,
  most: number,
): number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  /** Start of a group's first label, wanted by its members, and the members. */
  const groups: { start: number; members: number[]; extent: number }[] = [];
  for (const index of order) {
    const size = sizes[index]!;
    groups.push({ start: wanted[index]! - size / 2, members: [index], extent: size });
    while (groups.length > 1) {
      const [before, last] = groups.slice(-2);
      if (before!.start + before!.extent <= last!.start) break;
      const count = before!.members.length + last!.members.length;
      const start =
        (before!.start * before!.members.length + (last!.start - before!.extent) * last!.members.length) /
        count;
      groups.splice(-2, 2, {
        start,
        members: [...before!.members, ...last!.members],
        extent: before!.extent + last!.extent,
      });
    }
  }
  let from = least;
  const starts = groups.map((group) => {
    const start = Math.max(group.start, from);
    from = start + group.extent;
    return start;
  });
  let until = Math.max(
    most,
    from <= most ? most : least + groups.reduce((sum, { extent }) => sum + extent, 0),
  );
  for (let i = groups.length - 1; i >= 0; i--) {
    starts[i] = Math.min(starts[i]!, until - groups[i]!.extent);
    until = starts[i]!;
  }
  const centres: number[] = new Array(wanted.length);
  groups.forEach((group, i) => {
    let at = starts[i]!;
    for (const index of group.members) {
      centres[index] = at + sizes[index]! / 2;
      at += sizes[index]!;
    }
  });
  return centres;
}
