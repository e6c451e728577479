/**
 * The cells with the highest scores that together hold a share of the ground.
 *
 * Scores are ranked by a counting sort; among equal scores the first in row order are taken. The share reached is the
 * one nearest to the share asked for, so it is off by at most half the weight of one cell.
 *
 * @param scores 0..65535, one a cell
 * @param weights ground of each cell; cells of weight 0 are never taken
 * @param share of the sum of the weights, 0..1
 * @returns 1 where taken, else 0
 */
export function takeShare(scores: Uint16Array, weights: Int32Array, share: number): Uint8Array<ArrayBuffer> {
  const taken = new Uint8Array(scores.length);
  const weightOfScore = new Float64Array(65536);
  let total = 0;
  for (let cell = 0; cell < scores.length; cell += 1) {
    weightOfScore[scores[cell]!]! += weights[cell]!;
    total += weights[cell]!;
  }
  let wanted = share * total;
  let threshold = 65535;
  while (threshold > 0 && weightOfScore[threshold]! <= wanted) {
    wanted -= weightOfScore[threshold]!;
    threshold -= 1;
  }
  for (let cell = 0; cell < scores.length; cell += 1) {
    const weight = weights[cell]!;
    const score = scores[cell]!;
    if (weight === 0 || score < threshold) continue;
    if (score > threshold) taken[cell] = 1;
    else if (2 * wanted >= weight) {
      taken[cell] = 1;
      wanted -= weight;
    }
  }
  return taken;
}
