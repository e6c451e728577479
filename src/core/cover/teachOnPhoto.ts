import type { BetweenStrips } from '../classifier/classification.ts';
import type { TeachingPhoto } from '../classifier/coverModel.ts';
import { photoLook, sampleCells } from '../classifier/photoLook.ts';
import { type StrokeProblem, type TeachingStroke, trainingSamples } from '../classifier/trainingSamples.ts';
import { extractFeatures } from '../features/featurePlanes.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { type MeasureProblem, type MeasureSettings, preparePhoto } from './measurePhoto.ts';

export type PhotoTeaching =
  | {
      readonly ok: true;
      readonly teaching: TeachingPhoto;
      /** What of the strokes could not be used. */
      readonly problems: readonly StrokeProblem[];
    }
  | { readonly ok: false; readonly problem: MeasureProblem };

/** What the strokes on one photo teach: the same measured area, colours and features as when it is measured. */
export async function teachOnPhoto(
  raster: RgbaRaster,
  settings: MeasureSettings,
  strokes: readonly TeachingStroke[],
  { photoSha256, betweenStrips }: { photoSha256: string | null; betweenStrips?: BetweenStrips },
): Promise<PhotoTeaching> {
  const preparation = preparePhoto(raster, settings);
  if (!preparation.ok) return preparation;
  const { area, neutralGains } = preparation;
  const features = await extractFeatures(raster, area, { neutralGains, betweenStrips });
  const classIds = settings.classes.map(({ id }) => id);
  const { samples, problems } = trainingSamples(strokes, area, features, classIds);
  return {
    ok: true,
    teaching: { photoSha256, look: photoLook(sampleCells(features)), samples },
    problems,
  };
}
