const SQRT_HALF = Math.SQRT1_2;
const INVERSE_SQRT_TWO_PI = 0.3989422804014327;
const INVERSE_SQRT_PI = 0.5641895835477563;

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return INVERSE_SQRT_TWO_PI * Math.exp(-0.5 * z * z);
}

/** exp(-x * x) with the square taken in two parts, so that the tail keeps its relative accuracy. */
function expOfMinusSquare(x: number): number {
  const head = Math.trunc(x * 16) / 16;
  return Math.exp(-head * head) * Math.exp(-(x - head) * (x + head));
}

/**
 * Complementary error function, relative error below 1e-15 in both tails.
 *
 * @see Cody 1969, "Rational Chebyshev approximations for the error function", Math. Comp. 23:631
 */
export function complementaryErrorFunction(x: number): number {
  const y = Math.abs(x);
  if (y <= 0.46875) {
    const s = y * y;
    const top =
      (((0.18577770618460315 * s + 3.1611237438705655) * s + 113.86415415105016) * s + 377.485237685302) * s +
      3209.3775891384694;
    const bottom =
      (((s + 23.601290952344122) * s + 244.02463793444417) * s + 1282.6165260773723) * s + 2844.236833439171;
    return 1 - (x * top) / bottom;
  }
  const upper = y <= 4 ? middle(y) : outer(y);
  return x > 0 ? upper : 2 - upper;
}

function middle(y: number): number {
  const top =
    (((((((2.1531153547440383e-8 * y + 0.5641884969886701) * y + 8.883149794388377) * y + 66.11919063714163) *
      y +
      298.6351381974001) *
      y +
      881.952221241769) *
      y +
      1712.0476126340707) *
      y +
      2051.0783778260716) *
      y +
    1230.3393547979972;
  const bottom =
    (((((((y + 15.744926110709835) * y + 117.6939508913125) * y + 537.1811018620099) * y +
      1621.3895745666903) *
      y +
      3290.7992357334597) *
      y +
      4362.619090143247) *
      y +
      3439.3676741437216) *
      y +
    1230.3393548037495;
  return (expOfMinusSquare(y) * top) / bottom;
}

function outer(y: number): number {
  if (y > 27.3) return 0;
  const s = 1 / (y * y);
  const top =
    ((((0.016315387137302097 * s + 0.30532663496123236) * s + 0.36034489994980445) * s +
      0.12578172611122926) *
      s +
      0.016083785148742275) *
      s +
    0.0006587491615298378;
  const bottom =
    ((((s + 2.568520192289822) * s + 1.8729528499234673) * s + 0.5279051029514285) * s +
      0.06051834131244132) *
      s +
    0.0023352049762686918;
  return (expOfMinusSquare(y) * (INVERSE_SQRT_PI - (s * top) / bottom)) / y;
}

/** Probability that a standard normal variable is below z; relative accuracy in the lower tail. */
export function normalCdf(z: number): number {
  return 0.5 * complementaryErrorFunction(-z * SQRT_HALF);
}

/**
 * The z below which a standard normal variable falls with the given probability.
 *
 * @param probability 0 to 1, both excluded
 * @throws RangeError outside that range
 * @see starting value: Acklam's rational approximation (relative error 1e-9); two Halley steps finish it
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`probability must be between 0 and 1, both excluded, got ${probability}`);
  }
  if (probability > 0.5) return -lowerQuantile(1 - probability);
  return lowerQuantile(probability);
}

function lowerQuantile(probability: number): number {
  let z = roughLowerQuantile(probability);
  for (let step = 0; step < 2; step += 1) {
    const u = (normalCdf(z) - probability) / normalDensity(z);
    z -= u / (1 + (z * u) / 2);
  }
  return z;
}

/** The normal quantile to a relative 1e-9, for integrals over many points; ends of the range are not checked. */
export function roughNormalQuantile(probability: number): number {
  return probability > 0.5 ? -roughLowerQuantile(1 - probability) : roughLowerQuantile(probability);
}

function roughLowerQuantile(probability: number): number {
  let z: number;
  if (probability < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(probability));
    z =
      (((((-0.007784894002430293 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) *
        q +
        4.374664141464968) *
        q +
        2.938163982698783) /
      ((((0.007784695709041462 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) *
        q +
        1);
  } else {
    const q = probability - 0.5;
    const r = q * q;
    z =
      ((((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r -
        30.66479806614716) *
        r +
        2.506628277459239) *
        q) /
      (((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r -
        13.28068155288572) *
        r +
        1);
  }
  return z;
}
