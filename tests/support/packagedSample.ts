import { readFileSync } from 'node:fs';
import { type PackagedAnalysis, packagedComparison } from '../../src/core/exchange/dataPackageComparison.ts';
import type {
  PackagedFigure,
  PackagedPhoto,
  PackagedTrial,
} from '../../src/core/exchange/dataPackageTables.ts';
import type { ComparedPhoto } from '../../src/core/statistics/trialObservations.ts';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';

interface TruePhoto {
  readonly photo: string;
  readonly plot: string;
  readonly ratingDate: string;
  readonly coverPercentOfGround: Readonly<Record<string, number>>;
}

const { photos } = JSON.parse(
  readFileSync(new URL('../../sample-images/photos.json', import.meta.url), 'utf8'),
) as { photos: readonly TruePhoto[] };

/** The photos of the sample trial with their true cover, as if it had been measured. */
export function packagedPhotos(): PackagedPhoto[] {
  return photos.map(({ photo, plot, ratingDate, coverPercentOfGround }, index) => {
    const name = photo.replace(/^.*\//, '');
    const figure: PackagedFigure = {
      method: 'automatic',
      modelId: 'start-1',
      flags: [],
      measuredPixels: 1000,
      cover: Object.entries(coverPercentOfGround).map(([classId, percent]) => ({
        classId,
        pixels: Math.round(10 * percent),
        coverFraction: percent / 100,
      })),
    };
    return {
      name,
      sha256: String(index).padStart(64, '0'),
      plot,
      place: null,
      ratingDate,
      figures: [figure],
    };
  });
}

const compared = ({ plot, ratingDate, figures }: PackagedPhoto): ComparedPhoto => ({
  plot,
  ratingDate,
  figures: Object.fromEntries(figures.map((figure) => [figure.method, figure])),
});

/** The sample trial as it is exported. */
export function packagedSample(
  analysis: Partial<PackagedAnalysis> = {},
  plan: TrialPlan = samplePlan(),
  own: readonly PackagedPhoto[] = packagedPhotos(),
): PackagedTrial {
  return {
    plan,
    photos: own,
    calls: [],
    scores: [],
    weather: [],
    comparison: packagedComparison(plan, own.map(compared), {
      method: 'automatic',
      transform: 'none',
      alpha: 0.05,
      ...analysis,
    }),
  };
}
