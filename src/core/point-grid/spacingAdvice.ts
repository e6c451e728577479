import { designSpacing, type PlotExtent, plannedPoints, type SamplingDesign } from './samplingDesign.ts';

/** Whether points of a design stand far enough apart to fall on different plants. */
export interface SpacingAdvice {
  readonly code: 'wide-enough' | 'closer-than-plants' | 'chance-neighbours';
  /**
   * Distance of neighbours; for points without a fixed spacing the side of the ground that each stands for.
   */
  readonly spacingMm: number;
  readonly plantDiameterMm: number;
  /**
   * Most points of a square grid in this frame that still stand a plant apart; 0 in a frame smaller than a
   * plant.
   */
  readonly mostPoints: number;
}

/**
 * Compares the spacing of a design with the size of a plant or tuft.
 *
 * Points closer together than a plant is wide mostly repeat each other: they cost as much as others and tell
 * less than the interval for independent points assumes. Common practice, no source. Random and jittered
 * points keep no distance, so for them `chance-neighbours` says that some will share a plant; their interval
 * holds all the same.
 *
 * @param sizeMm the frame's inner size
 * @param plantDiameterMm usual diameter of a plant or tuft seen from above
 * @throws RangeError unless the diameter is above 0
 */
export function spacingAdvice(
  design: SamplingDesign,
  sizeMm: PlotExtent,
  plantDiameterMm: number,
): SpacingAdvice {
  if (!(plantDiameterMm > 0)) {
    throw new RangeError(`a plant's diameter must be above 0 mm, got ${plantDiameterMm}`);
  }
  const [widthMm, heightMm] = sizeMm;
  const fixed = designSpacing(design, sizeMm);
  const spacingMm = fixed ?? Math.sqrt((widthMm * heightMm) / plannedPoints(design));
  const mostPoints = Math.floor(widthMm / plantDiameterMm) * Math.floor(heightMm / plantDiameterMm);
  const isClose = spacingMm < plantDiameterMm;
  const code = isClose ? 'closer-than-plants' : fixed === null ? 'chance-neighbours' : 'wide-enough';
  return { code, spacingMm, plantDiameterMm, mostPoints };
}
