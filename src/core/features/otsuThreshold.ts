/**
 * The level that best parts a histogram in two by Otsu's rule: levels below it are one group, it and those above
 * the other. The lowest of equally good levels.
 *
 * @param counts weight of each level, 0 or more
 * @returns null when fewer than two levels are filled: there is nothing to part
 * @see Otsu 1979, IEEE Trans. Syst. Man Cybern. 9:62
 */
export function otsuThreshold(counts: ArrayLike<number>): number | null {
  let total = 0;
  let moment = 0;
  for (let level = 0; level < counts.length; level += 1) {
    total += counts[level]!;
    moment += level * counts[level]!;
  }
  let best: number | null = null;
  let bestBetween = 0;
  let below = 0;
  let belowMoment = 0;
  for (let level = 1; level < counts.length; level += 1) {
    below += counts[level - 1]!;
    belowMoment += (level - 1) * counts[level - 1]!;
    const above = total - below;
    if (below === 0 || above === 0) continue;
    const difference = belowMoment / below - (moment - belowMoment) / above;
    const between = (below / total) * (above / total) * difference * difference;
    if (between > bestBetween) {
      bestBetween = between;
      best = level;
    }
  }
  return best;
}
