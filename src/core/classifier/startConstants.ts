/**
 * Every number of the start model that was fitted or chosen, with its origin.
 *
 * "Odd plots" means: fitted to the odd-numbered plots of the sample trial (32 of its 64 rendered photos) and checked on
 * the even-numbered ones. "Judgement" means: chosen for good sense, without data.
 *
 * Units: relative chroma (a* or b* over L* + 16) and log lightness (ln(L* + 16)) as plain numbers.
 */

/** Neighbourhood whose mean greenness parts vegetation from ground. Odd plots: 1.7 mm, 2 cells of 0.83 mm. */
export const GREENNESS_RADIUS_MM = 1.7;
export const GREENNESS_RADIUS_CELLS = 2;

/**
 * Neighbourhood whose mean colour parts dark from light grass: 7 x 7 blocks of 2.5 mm. Odd plots: radii of 6.5 to 10 mm
 * do alike, and so do single cells in place of blocks.
 */
export const TONE_BLOCK_MM = 2.5;
export const TONE_BLOCK_CELLS = 3;
export const TONE_RADIUS_BLOCKS = 3;

/**
 * Ground score = relative a* of the neighbourhood - this x log lightness of the cell. Odd plots: dark pixels are
 * shaded leaves more often than ground.
 */
export const GROUND_LIGHTNESS_FACTOR = 0.1;

/**
 * What the ground score of vegetation and of ground look like before the photo is seen: mean, how far the mean
 * strays from photo to photo, spread within a photo. Odd plots; the strays are about four times (vegetation, 0.027) and
 * twice (ground, 0.019) what was seen there, because real photos differ more and the fit is none the worse for it.
 */
export const GROUND_PRIOR = {
  vegetation: { mean: -0.31, meanSpread: 0.1, spread: 0.065 },
  ground: { mean: -0.09, meanSpread: 0.04, spread: 0.075 },
  /** How many cells' worth the prior spreads count. */
  spreadCells: 200,
} as const;

/**
 * Relative a* above this counts as this: what is redder than soil (litter, flowers, a tool) is no vegetation, and how
 * much redder must not widen the spread of the ground. Judgement: red earth has about 0.1, straw about 0.
 */
export const REDDEST_GROUND = 0.05;

/**
 * Neighbouring cells show the same leaf, so a photo tells as much as this many cells that do not. Odd plots: fits
 * hardly change between half and twice this.
 */
export const INDEPENDENT_CELLS = 2000;

/**
 * Gaps of a few mm between leaves show the colour of the leaves round them and escape the fit: share of the
 * vegetation that is really ground, where the canopy shows leaf texture. Odd plots.
 */
export const GAP_SHARE = 0.019;
/**
 * Spread of log lightness round its neighbourhood: no leaf texture below the first, full texture above the second. Odd
 * plots show 0.19 to 0.29, the blurred one 0.09; the two bounds are judgement.
 */
export const GAP_TEXTURE = { none: 0.05, full: 0.15 } as const;

/** In the ranking that draws the mask, dark cells are ground sooner: share of log lightness taken off the score. Odd plots. */
export const GROUND_RANK_LIGHTNESS_FACTOR = 0.1;

/**
 * Tone = log lightness + these x relative a* and b* of the vegetation in the neighbourhood: higher is lighter and
 * yellower. Odd plots, rounded.
 */
export const TONE_A_FACTOR = 2;
export const TONE_B_FACTOR = 4;

/** What the cell itself adds to the ranking of light grass: factors of its log lightness and relative b*. Odd plots. */
export const LIGHT_RANK_LIGHTNESS_FACTOR = 0.2;
export const LIGHT_RANK_B_FACTOR = 0.25;

/** Tone is fitted where at least this share of the neighbourhood is vegetation. Odd plots: 0.6 to 0.75 do alike. */
export const CLOSED_CANOPY_SHARE = 0.6;

/** Prior of the tone fit. Odd plots: contrast 0.67 between the two kinds (0.52 to 0.91,
 * standard deviation 0.12), spread 0.10 within each (0.07 to 0.16). */
export const TONE_PRIOR = {
  contrast: 0.67,
  contrastSpread: 0.12,
  spread: 0.1,
  /** How many cells' worth the prior spread counts. */
  spreadCells: 50,
  /** Share of light grass and how many cells' worth it counts. Judgement. */
  lightShare: 0.2,
  lightShareCells: 2,
} as const;

/** A photo tells as much of tone as this many cells that do not share a patch. Odd plots: 400 to 2000 do about alike. */
export const INDEPENDENT_TONE_CELLS = 1000;

/**
 * How often a neighbourhood holds 0, 10, .. 100 % light grass, before the photo's own share tilts it: patches are
 * mostly one or the other. Odd plots, maximum likelihood of an exponentially tilted family.
 */
export const PATCH_SHARES = [
  0.129, 0.031, 0.032, 0.036, 0.045, 0.054, 0.067, 0.084, 0.109, 0.15, 0.264,
] as const;

/**
 * Two kinds are told apart when they explain the tones better than one by this many nats of posterior odds, and their
 * contrast is at least this. Odd plots: 19 nats and 0.46 or more on every photo; with the pixels of one kind alone,
 * the contrast is 0.23 to 0.57 for the light one (seedheads and yellow leaves vary too), mostly below 0.4.
 */
export const TWO_KINDS_NATS = 10;
export const LEAST_CONTRAST = 0.42;

/** A share fitted below this is none at all. Judgement: the tails of a fitted normal distribution reach this far. */
export const LEAST_SHARE = 0.003;

/** Vegetation lighter (log lightness) and less green (relative a*) than this is too pale to tell its kinds. Judgement. */
export const PALE_LIGHTNESS = 4.35;
export const PALE_GREENNESS = -0.24;
/** With less closed canopy than this among the vegetation, plants stand singly and tone tells age, not kind. Judgement. */
export const LEAST_CLOSED_CANOPY = 0.2;

/** Mean of |a*| + |b*| below which a photo has no colour. Judgement: greyscale photos have 0, the dullest turf some 15. */
export const LEAST_COLOUR = 2;

/** More of the cells than this lie between vegetation and ground: the figure is uncertain. Judgement. */
export const LARGEST_BETWEEN_SHARE = 0.15;

/** Fewer measured pixels than this cannot show what turf looks like. Judgement: a square of 50 pixels. */
export const LEAST_PIXELS = 2500;
