/** A tree node: a leaf's class probabilities, or a feature, a threshold and the nodes below (<) and not below it. */
type Node =
  | { readonly probabilities: readonly number[] }
  | { readonly feature: number; readonly threshold: number; readonly below: Node; readonly other: Node };

export interface ForestOptions {
  readonly trees: number;
  readonly mostLeafDepth: number;
  readonly leastSamples: number;
  readonly random: () => number;
}

/** A forest of small trees: bootstrap samples, square root of the features tried at each node, Gini impurity. */
export function fitForest(
  samples: readonly (readonly number[])[],
  classes: readonly number[],
  classCount: number,
  options: ForestOptions,
): readonly Node[] {
  const { trees, random } = options;
  return Array.from({ length: trees }, () => {
    const drawn = samples.map(() => Math.floor(random() * samples.length));
    return grow(samples, classes, classCount, drawn, 0, options);
  });
}

export function forestProbabilities(
  forest: readonly Node[],
  sample: ArrayLike<number>,
  classCount: number,
): number[] {
  const sums = new Array<number>(classCount).fill(0);
  for (let node of forest) {
    while ('feature' in node) node = sample[node.feature]! < node.threshold ? node.below : node.other;
    node.probabilities.forEach((p, c) => {
      sums[c]! += p / forest.length;
    });
  }
  return sums;
}

function grow(
  samples: readonly (readonly number[])[],
  classes: readonly number[],
  classCount: number,
  members: readonly number[],
  depth: number,
  options: ForestOptions,
): Node {
  const counts = countsOf(members, classes, classCount);
  const leaf = (): Node => ({
    probabilities: counts.map((count) => (count + 1 / classCount) / (members.length + 1)),
  });
  if (depth >= options.mostLeafDepth || members.length < 2 * options.leastSamples) return leaf();
  const width = samples[0]!.length;
  let best: { feature: number; threshold: number; gini: number } | null = null;
  for (let tried = 0; tried < Math.ceil(Math.sqrt(width)); tried += 1) {
    const feature = Math.floor(options.random() * width);
    const sorted = [...members].sort((a, b) => samples[a]![feature]! - samples[b]![feature]!);
    const left = new Array<number>(classCount).fill(0);
    sorted.slice(0, -1).forEach((member, i) => {
      left[classes[member]!]! += 1;
      const [value, next] = [samples[member]![feature]!, samples[sorted[i + 1]!]![feature]!];
      const [below, other] = [i + 1, sorted.length - i - 1];
      if (value === next || below < options.leastSamples || other < options.leastSamples) return;
      const impurity = (part: (c: number) => number, total: number) =>
        total - counts.reduce((sum, _, c) => sum + part(c) ** 2, 0) / total;
      const gini = impurity((c) => left[c]!, below) + impurity((c) => counts[c]! - left[c]!, other);
      if (!best || gini < best.gini) best = { feature, threshold: (value + next) / 2, gini };
    });
  }
  if (!best) return leaf();
  const { feature, threshold } = best as { feature: number; threshold: number };
  const below = members.filter((member) => samples[member]![feature]! < threshold);
  const other = members.filter((member) => samples[member]![feature]! >= threshold);
  return {
    feature,
    threshold,
    below: grow(samples, classes, classCount, below, depth + 1, options),
    other: grow(samples, classes, classCount, other, depth + 1, options),
  };
}

function countsOf(members: readonly number[], classes: readonly number[], classCount: number): number[] {
  const counts = new Array<number>(classCount).fill(0);
  for (const member of members) counts[classes[member]!]! += 1;
  return counts;
}
