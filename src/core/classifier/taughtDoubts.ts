import { FEATURES } from '../features/featurePlanes.ts';
import { mean } from '../statistics/mean.ts';
import type { AdaptedModel } from './photoAdaptation.ts';
import type { PhotoExpectation } from './photoExpectation.ts';
import { DOUBT_LIMITS, STRAY } from './taughtConstants.ts';

/** Ways in which a class differs on a photo from what was painted. */
export type ClassDifference = 'darker' | 'lighter' | 'yellower' | 'bluer' | 'greener' | 'redder';

/** Why a figure is in doubt: what was measured, and from which value on it counts. */
export type DoubtReason =
  | {
      readonly flag: 'unlike-training';
      /** The class looks otherwise here; value in usual differences between photos. */
      readonly code: 'class-differs';
      readonly classId: string;
      readonly difference: ClassDifference;
      readonly value: number;
      readonly limit: number;
    }
  | {
      readonly flag: 'unlike-training';
      /** Classes as a whole lie elsewhere (strangeness), or the light has another contrast. */
      readonly code: 'photo-differs' | 'light-differs';
      readonly value: number;
      readonly limit: number;
    }
  | {
      readonly flag: 'uncertain';
      /** Leaving out some of what was painted moves a share by much: standard error, 0..1. */
      readonly code: 'unsteady-shares';
      readonly classId: string;
      readonly value: number;
      readonly limit: number;
    }
  | {
      readonly flag: 'uncertain';
      /** Many pixels lie between classes: mean over the photo of 1 - probability of the likeliest class. */
      readonly code: 'classes-overlap';
      readonly value: number;
      readonly limit: number;
    };

const DIFFERENCES = {
  lightness: ['darker', 'lighter'],
  aStar: ['greener', 'redder'],
  bStar: ['bluer', 'yellower'],
} as const;

/** What speaks against a photo's figure, worst first, and how bad it is: 1 where a flag is raised. */
export function doubtsAbout(
  expected: PhotoExpectation,
  adapted: AdaptedModel,
  standardError: readonly number[] | null,
  classIds: readonly string[],
): { readonly reasons: readonly DoubtReason[]; readonly doubt: number } {
  const found: DoubtReason[] = [];
  adapted.shifts.forEach((shift, c) => {
    const classId = classIds[expected.taught[c]!]!;
    for (const channel of ['lightness', 'aStar', 'bStar'] as const) {
      const { common, kind } = STRAY[channel];
      const off = meanShift(shift, channel) / Math.sqrt(common * common + kind * kind);
      found.push({
        flag: 'unlike-training',
        code: 'class-differs',
        classId,
        difference: DIFFERENCES[channel][off < 0 ? 0 : 1],
        value: Math.abs(off),
        limit: DOUBT_LIMITS.classDiffers,
      });
    }
  });
  found.push(
    {
      flag: 'unlike-training',
      code: 'photo-differs',
      value: adapted.strangeness,
      limit: DOUBT_LIMITS.photoDiffers,
    },
    {
      flag: 'unlike-training',
      code: 'light-differs',
      value: expected.contrastOff,
      limit: DOUBT_LIMITS.lightDiffers,
    },
  );
  found.push({
    flag: 'uncertain',
    code: 'classes-overlap',
    value: 1 - adapted.meanCertainty,
    limit: DOUBT_LIMITS.classesOverlap,
  });
  standardError?.forEach((value, c) => {
    found.push({
      flag: 'uncertain',
      code: 'unsteady-shares',
      classId: classIds[c]!,
      value,
      limit: DOUBT_LIMITS.unsteadyShares,
    });
  });
  found.sort((a, b) => b.value / b.limit - a.value / a.limit);
  return {
    reasons: found.filter(({ value, limit }) => value >= limit),
    doubt: found[0]!.value / found[0]!.limit,
  };
}

/** Mean shift over the scales of a channel. */
function meanShift(shift: Float64Array, channel: 'lightness' | 'aStar' | 'bStar'): number {
  const scales = FEATURES.flatMap((feature, f) =>
    feature.channel === channel && feature.what === 'mean' ? [shift[f]!] : [],
  );
  return mean(scales);
}
