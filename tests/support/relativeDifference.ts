/** One computed number beside the expected one. */
export interface Checked {
  readonly got: number;
  readonly expected: number;
  readonly what: string;
}

/** Largest |got - expected| / |expected|; a wrong infinity or NaN counts as infinite. */
export function worstRelativeDifference(checked: readonly Checked[]): number {
  let worst = 0;
  let where = '';
  for (const { got, expected, what } of checked) {
    const difference = got === expected ? 0 : Math.abs(got - expected) / (Math.abs(expected) || 1);
    const size = Number.isNaN(difference) ? Number.POSITIVE_INFINITY : difference;
    if (size > worst) {
      worst = size;
      where = `${what}: got ${got}, expected ${expected}`;
    }
  }
  if (process.env.SHOW_DIFFERENCES) console.log(worst.toExponential(1), where);
  return worst;
}
