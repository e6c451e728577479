/**
 * Every number of the taught model that was fitted or chosen, with its origin.
 *
 * "Odd plots" means: fitted to the odd-numbered plots of the sample trial (32 of its 64 rendered photos) and checked on
 * the even-numbered ones. "Judgement" means: chosen for good sense, without data.
 */

/**
 * How far the mean of a class strays between photos of one date, by channel, as standard deviations in units of
 * CIELAB: `common` moves all classes together (light, exposure, white balance), `kind` one class alone (darkened by a
 * growth regulator, bleached, wet), `feature` one neighbourhood size alone. Odd plots, levelled light.
 */
export const STRAY = {
  lightness: { common: 1.39, kind: 1.36, feature: 0.3 },
  aStar: { common: 0.28, kind: 0.63, feature: 0.1 },
  bStar: { common: 0.2, kind: 0.84, feature: 0.17 },
  spread: { common: 1.54, kind: 0.2, feature: 0.47 },
} as const;

/**
 * Neighbouring cells show the same leaf, so what a photo says of its own class means counts as this many labelled
 * cells. Odd plots: 60 to 150 do alike.
 */
export const PHOTO_COUNTS_AS_CELLS = 80;

/** Share of the covariance pooled over classes in that of a class with many labelled cells. Odd plots: 0.3 to 0.5 do alike. */
export const POOLED_SHARE = 0.4;
/** A class with this many labelled cells counts half, beside the pooled covariance. Judgement. */
export const FEW_CELLS = 10;
/** Part of the diagonal added to every covariance. Odd plots: 0.01 to 0.05 do alike. */
export const RIDGE = 0.02;
/** The same share where the mask is drawn: borders between classes then are smoother. Odd plots. */
export const POOLED_SHARE_OF_MASK = 0.6;

/** Before any labels, features vary within a class by this part of their variance over the photo. Judgement. */
export const WITHIN_CLASS_VARIANCE = 0.5;
/** How many labelled cells that guess counts as. Judgement. */
export const GUESS_COUNTS_AS_CELLS = 5;

/**
 * Photos teach in proportion to how alike their light is: contrast is ln((L* + 16 of the brightest twentieth) / (of
 * the middle)), and photos whose contrast differs by this much count e^(-1/2). Odd plots: 0.02 to 0.03; 0.05 is worse.
 */
export const CONTRAST_LIKENESS = 0.03;
/** What a photo in quite other light still counts. Odd plots. */
export const LEAST_LIKENESS = 0.005;

/** Spread within classes goes with this power of the photo's whole spread. Odd plots: 0.5 to 0.7. */
export const SPREAD_POWER = 0.5;
/** How far spread within classes, as the photo shows it, is believed: power of the ratio. Odd plots: 0.25 to 0.5. */
export const OWN_SPREAD_POWER = 0.4;
/** Ratios of spread beyond this are taken as this. Judgement. */
export const LARGEST_SPREAD_RATIO = 2;

/** Levelling that changed features by less than this share needs no second look. Judgement. */
export const LEAST_RESCALING = 0.01;

/** How much better undone levelling must suit a photo before it is believed. Odd plots: 15 or more; real changes give hundreds. */
export const RESCALING_NATS = 20;

/** Cells of a photo that its shares are fitted to. Twice as many change no share by more than a third of a point. */
export const FITTED_CELLS = 2500;
/** Rounds in which shift, spread and shares are fitted in turn. */
export const FIT_ROUNDS = 15;

/** No more labelled cells of a class and photo than this are kept; a draw by the seed. Judgement. */
export const MOST_CELLS_OF_CLASS = 600;
/** Labelled cells within a square of this side count as one when means are believed: they show the same leaves. */
export const ALIKE_WITHIN_CELLS = 4;

/** Standard errors are computed from this many cells: they need no third digit. */
export const CELLS_FOR_ERROR = 800;
/**
 * What a share is wrong by (standard deviation) even where leaving out what was painted changes nothing: class densities
 * are only nearly normal, and class means stray. Odd plots.
 */
export const MODEL_ERROR = 0.018;

/**
 * From these values on a photo is flagged. `photoDiffers` and `classesOverlap` decide nearly alone; they are the largest (in steps
 * of 0.02 and 0.01) at which on the odd plots no photo wrong by more than 5 points loses its flag: of models used on their own
 * date 15 % of the photos are flagged, among them all 5 that were so wrong, on other dates 86 of 89. The others: odd plots.
 */
export const DOUBT_LIMITS = {
  /** Shift of one class in usual differences between photos. */
  classDiffers: 2.2,
  /** Mean square of all shifts in usual differences. */
  photoDiffers: 0.38,
  /** Difference in contrast to the photo taught on that is most alike. */
  lightDiffers: 0.04,
  /** Standard error of a share. */
  unsteadyShares: 0.1,
  /** Mean of 1 - probability of the likeliest class: of all doubts the one that goes best with the error. */
  classesOverlap: 0.14,
} as const;
