import type { AdjustmentRefusal } from '../cover/adjustment.ts';
import type { TreatmentAdjustments } from '../cover/adjustTreatments.ts';
import type { OneMethodCheck } from '../cover/oneMethod.ts';
import type { FramesAgainstPoints } from '../point-grid/countPlan.ts';
import type { EstimateNote, EstimateTarget } from '../point-grid/pointEstimate.ts';
import type { TreatmentReferencePhotos } from '../point-grid/referencePhotos.ts';
import type { SamplingDesign } from '../point-grid/samplingDesign.ts';
import type { SpacingAdvice } from '../point-grid/spacingAdvice.ts';
import type { GapRule } from '../trial/trial.ts';
import { catalogue } from './catalogue.ts';
import { formatLength, formatList, formatPercent, formatQuantity } from './format.ts';

/** What an interval is about, as it stands beside every figure. */
export const estimateTargetText = catalogue('estimateTargetText', (target: EstimateTarget): string => {
  switch (target) {
    case 'frame':
      return 'the ground in this frame';
    case 'plot':
      return 'the whole plot';
    case 'treatment-mean':
      return "the mean of the treatment's plots";
  }
});

export const samplingDesignText = catalogue('samplingDesignText', (design: SamplingDesign): string => {
  switch (design.kind) {
    case 'regular-grid':
      return `Grid of ${design.columns} × ${design.rows}, random start`;
    case 'jittered-grid':
      return `${design.columns} × ${design.rows} cells, one random point in each`;
    case 'simple-random':
      return `${formatQuantity(design.points, 'random point', 'random points')}`;
    case 'transect-lines':
      return `${formatQuantity(design.lines, 'line', 'lines')} of ${formatQuantity(design.pointsPerLine, 'point', 'points')}, at equal distances`;
  }
});

export const spacingAdviceText = catalogue('spacingAdviceText', (advice: SpacingAdvice): string => {
  const { code, mostPoints } = advice;
  const [spacing, plant] = [formatLength(advice.spacingMm), formatLength(advice.plantDiameterMm)];
  switch (code) {
    case 'wide-enough':
      return `Points stand ${spacing} mm apart, plants are about ${plant} mm wide: good.`;
    case 'closer-than-plants':
      return (
        `Points stand ${spacing} mm apart, closer than a plant is wide (${plant} mm), so neighbours mostly repeat each other. ` +
        (mostPoints > 0
          ? `At most ${formatQuantity(mostPoints, 'point fits', 'points fit')} into this frame a plant apart; further frames tell more than further points.`
          : 'The frame is smaller than a plant: take a larger one, or more frames.')
      );
    case 'chance-neighbours':
      return `Each point stands for a square of ${spacing} mm. Some will fall on the same plant (${plant} mm) by chance; the interval allows for that.`;
  }
});

/** The question that the observer answers under the trial's rule for small gaps. */
export const gapRuleForPointsText = catalogue('gapRuleForPointsText', (rule: GapRule): string => {
  return rule.kind === 'every-pixel'
    ? 'Call what lies exactly under the mark, small gaps between leaves included.'
    : `Bare ground counts as bare where a circle of ${formatLength(rule.smallerThanMm)} mm fits into it round the mark. In a narrower gap, call the cover nearest to the mark.`;
});

/** "below 3.0 %" for a class that no point hit; the bound is rounded up, so that the sentence stays true. */
export const belowText = catalogue('belowText', (belowFraction: number): string => {
  // digits as formatPercent shows them: tenths of a percent below 10 %, whole ones from there on
  const step = belowFraction > 0.099 ? 100 : 1000;
  return `below ${formatPercent(Math.min(1, Math.ceil(belowFraction * step - 1e-9) / step))} %`;
});

export const estimateNoteText = catalogue('estimateNoteText', ({ code, count }: EstimateNote): string => {
  const number = count ?? 0;
  switch (code) {
    case 'no-points-judged':
      return 'No point has a verdict, so there is no figure.';
    case 'frames-without-points':
      return `${formatQuantity(number, 'frame', 'frames')} without a verdict left out.`;
    case 'one-frame':
      return 'One frame only: how much frames of this plot differ is unknown, so the figure has no interval for the plot. A second frame gives one.';
    case 'lines-without-points':
      return `${formatQuantity(number, 'line', 'lines')} without a verdict left out.`;
    case 'one-line':
      return 'One line only: how much lines of this frame differ is unknown, so the figure has no interval. A second line gives one.';
    case 'one-plot':
      return 'One plot only: the figure has no interval for the treatment.';
    case 'plots-without-points':
      return `${formatQuantity(number, 'plot', 'plots')} without a verdict left out.`;
    case 'no-spread-seen':
      return `No spread at all between frames or plots for ${formatQuantity(number, 'class', 'classes')}: the interval then rests on the number of points, and may be too narrow.`;
    case 'indeterminate-many':
      return `At ${number} % of the points the observer could not tell. The figure speaks of the others; the range beside it shows what those points could change.`;
  }
});

/** Which photos the reference points speak for. */
export const referencePhotosText = catalogue(
  'referencePhotosText',
  (drawn: TreatmentReferencePhotos, asked: number): string => {
    const { treatment, photos, drawnFrom, withStrokes, inReviewQueue } = drawn;
    const left = [
      ...(withStrokes > 0 ? [`${withStrokes} with painted samples`] : []),
      ...(inReviewQueue > 0 ? [`${inReviewQueue} doubted or reviewed`] : []),
    ];
    const short =
      photos.length < asked ? ` Asked were ${asked}: paint on fewer photos, or take more of them.` : '';
    const aside = left.length > 0 ? ` Left out, and not spoken for: ${formatList(left)}.` : '';
    return `Treatment ${treatment}: ${formatQuantity(photos.length, 'photo', 'photos')} drawn from ${drawnFrom}.${short}${aside}`;
  },
);

export const adjustmentRefusalText = catalogue(
  'adjustmentRefusalText',
  (refusal: AdjustmentRefusal): string => {
    switch (refusal.code) {
      case 'no-points':
        return 'No point has a verdict, so the mask cannot be checked. Call points first.';
      case 'stratum-too-few-points':
        return `Too few points for ${formatList(refusal.classes)}: at least ${refusal.fewest} are needed. Call more points, or use the figure of mask or points alone.`;
      case 'too-few-photos':
        return `Points were called on ${formatQuantity(refusal.photos, 'photo', 'photos')} only; at least ${refusal.fewest} are needed to know how much photos differ.`;
      case 'class-never-observed':
        return `No point was seen to be ${formatList(refusal.classes)}, so nothing is known of how the mask takes it. Call points on photos that have it.`;
      case 'class-never-mapped':
        return `The mask gave no point to ${formatList(refusal.classes)}, so its cover cannot be solved from the mask. Use the points alone, or teach the model.`;
      case 'mask-does-not-separate':
        return `The mask mixes up ${formatList(refusal.classes)} with other ground, so its shares cannot be corrected. Use the points alone, or teach the model.`;
    }
  },
);

/** Why treatments were adjusted together or each from its own points. */
export const adjustmentReasonText = catalogue(
  'adjustmentReasonText',
  ({ reason, test }: TreatmentAdjustments): string => {
    const p = test.smallestP === null ? '' : ` (smallest p ${test.smallestP.toFixed(3)})`;
    switch (reason) {
      case 'own-points-suffice':
        return 'Every treatment has enough points to be adjusted from its own.';
      case 'rates-not-different': {
        const hardly = test.hardlyTested.map(
          ({ treatment, classId, points }) => `${classId} in treatment ${treatment} (${points})`,
        );
        return (
          `No difference was found in how the mask errs in the treatments${p}, so their points were taken together, as some have too few of their own. That is no proof that there is none.` +
          (hardly.length > 0 ? ` Hardly tested, with few points: ${formatList(hardly)}.` : '')
        );
      }
      case 'rates-differ':
        return `The mask errs differently in different treatments${p}, so each is adjusted from its own points or not at all.`;
      case 'rates-untested':
        return 'Too few photos with points to test whether the mask errs alike in all treatments, so each is adjusted from its own points or not at all.';
      case 'pooled-rates-unusable':
        return 'The points taken together do not say how the mask takes every class, so each treatment is adjusted from its own points or not at all.';
    }
  },
);

export const oneMethodText = catalogue('oneMethodText', (check: OneMethodCheck): string => {
  if (check.ok) return `All ${check.plots} plots by the same method.`;
  const instead =
    check.instead.length > 0
      ? `Every plot has a figure by ${formatList(check.instead)}.`
      : 'No method has a figure for every plot.';
  return (
    `On ${check.ratingDate} no figure by the chosen method for ${formatQuantity(check.plots.length, 'plot', 'plots')}: ${formatList(check.plots)}. ` +
    `Measure them the same way, or choose another method for all. ${instead}`
  );
});

export const framesAgainstPointsText = catalogue(
  'framesAgainstPointsText',
  (plan: FramesAgainstPoints): string => {
    const error = (value: number) => formatLength(value);
    const now = `Standard error of the plot's cover now ${error(plan.standardError)} points`;
    const doubled = `twice the frames ${error(plan.withTwiceTheFrames)}, twice the points in each ${error(plan.withTwiceThePoints)}`;
    return plan.better === 'frames'
      ? `${now}; ${doubled}. More frames buy more than more points.`
      : `${now}; ${doubled}. Frames do not differ here, so either will do.`;
  },
);
