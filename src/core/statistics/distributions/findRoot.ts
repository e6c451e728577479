/**
 * Root of a continuous function between two points where it has different signs (Brent 1973, chapter 4).
 *
 * @param f function of one number
 * @param low, high the bracket
 * @param tolerance the root is found to this relative distance @default 1e-15
 * @throws RangeError if f has the same sign at both ends
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 1e-15): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 !== fb < 0)) throw new RangeError(`no sign change between ${low} and ${high}`);
  let c = a;
  let fc = fa;
  let step = b - a;
  let previous = step;
  for (let n = 0; n < 200; n += 1) {
    if (fb < 0 === fc < 0) {
      c = a;
      fc = fa;
      step = b - a;
      previous = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const small = 2 * Number.EPSILON * Math.abs(b) + tolerance * Math.abs(b) + Number.MIN_VALUE;
    const half = (c - b) / 2;
    if (Math.abs(half) <= small || fb === 0) return b;
    let p: number;
    let q: number;
    if (Math.abs(previous) >= small && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const u = fa / fc;
        const v = fb / fc;
        p = s * (2 * half * u * (u - v) - (b - a) * (v - 1));
        q = (u - 1) * (v - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(small * q), Math.abs(previous * q))) {
        previous = step;
        step = p / q;
      } else {
        step = half;
        previous = half;
      }
    } else {
      step = half;
      previous = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > small ? step : half > 0 ? small : -small;
    fb = f(b);
  }
  return b;
}

/**
 * The x, 0 or more, where a falling function crosses a level given as a logarithm.
 *
 * For upper tails of distributions on the positive axis: works on log x and log tail, so far tails are as good as the middle.
 *
 * @param tail falling from 1 at 0 to 0 at infinity
 * @param probability the wanted tail, between 0 and 1, both excluded
 * @param start a first guess, above 0
 */
export function findTailPoint(tail: (x: number) => number, probability: number, start: number): number {
  const target = Math.log(probability);
  const f = (u: number): number => Math.max(Math.log(tail(Math.exp(u))), -1e4) - target;
  let low = Math.log(start);
  let high = low;
  for (let width = 0.25; f(low) < 0 && low > -700; width *= 2) low -= width;
  for (let width = 0.25; f(high) > 0 && high < 700; width *= 2) high += width;
  return Math.exp(low === high ? low : findRoot(f, low, high, 1e-16));
}
