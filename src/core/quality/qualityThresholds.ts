/**
 * Where each measure of a photo's quality begins to matter.
 *
 * Tuned on the odd-numbered plots of the sample trial and on degraded copies of them; docs/method.md has the hit and
 * false-alarm rates on the even ones. Widths of leaves are common practice, no source.
 */

/** Leaves of turf ryegrass are 2 to 3 mm wide. */
export const BLADE_WIDTH_MM = 2.5;

/** Fewer than two pixels across a leaf: colours of neighbours mix. Fewer than one: single leaves are gone. */
export const FEW_PIXELS_MM = BLADE_WIDTH_MM / 2;

/**
 * Width of the finest detail. Sharp sample photos show 0.86 to 1.02 mm at 0.85 mm a pixel, and 0.9 mm at 0.4 mm a pixel;
 * blurred ones 1.6 and 2.2.
 */
export const SOFT_DETAIL_MM = 1.3;
export const BLURRED_DETAIL_MM = 2.5;
/** Below this many pixels the photo is as sharp as its pixels allow: it is too small, not blurred. */
export const PIXEL_SHARP_PX = 1.45;

/** Turf alone gives up to 6.6 levels at 0.85 mm a pixel, more where pixels are larger: there noise is not judged. */
export const NOISY_LEVELS = 7.5;
export const NOISE_JUDGED_TO_MM = 1;

/** Shares of the frame's pixels without drawing. */
export const CLIPPED_LIGHTS = { caution: 0.02, retake: 0.1 } as const;
export const CLIPPED_SHADOWS = { caution: 0.03, retake: 0.15 } as const;
/** Median of green: 86 to 114 on well exposed sample photos, 53 on the one a stop and more under. */
export const DARK_MEDIAN = { caution: 65, retake: 30 } as const;
export const LIGHT_MEDIAN = { caution: 175, retake: 215 } as const;

/** Leaves are seen from the side, ground between them is hidden: first-hit cover grows with the tilt. */
export const TILT_DEGREES = { caution: 8, retake: 20 } as const;

/** Light over dark side of a straight edge. Patches of turf reach 1.45, the sample with a person's shadow has 1.66. */
export const SHADOW_RATIO = 1.55;

/** Shorter lenses, in 35 mm film: 13 to 16 mm are the second, very wide camera of phones. */
export const SHORTEST_FOCAL_LENGTH_35_MM = 20;
export const LARGEST_DIGITAL_ZOOM = 1.05;

/** Quality as libjpeg counts it, from the luminance table. Cameras write 90 and more, messengers 60 to 75. */
export const COMPRESSED_QUALITY = { caution: 75, retake: 45 } as const;
/** A size that differs from the one the camera noted by more than this share was changed on the way. */
export const RESIZED_SHARE = 0.02;
