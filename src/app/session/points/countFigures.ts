import type { Adjustment } from '../../../core/cover/adjustment.ts';
import type { PhotoAdjustments } from '../../../core/cover/adjustPhotos.ts';
import type { MeasureSettings } from '../../../core/cover/measurePhoto.ts';
import { type CountedPhoto, estimatePhotoCover, isCounted } from '../../../core/point-grid/countedPhoto.ts';
import type { NewFigure } from '../../../storage/figureStore.ts';
import type { FigureOfPhoto } from '../../../storage/pointStore.ts';
import type { Figure } from '../session.ts';
import { SOFTWARE_VERSION } from '../softwareVersion.ts';

/** The settings a photo is measured with now; null where the photo is gone. */
type SettingsOf = (photoId: string) => MeasureSettings | null;

/** The figures of counted photos by one observer's points alone. */
export function figuresByPoints(
  photos: readonly CountedPhoto[],
  observer: string,
  classIds: readonly string[],
  settingsOf: SettingsOf,
): FigureOfPhoto[] {
  return photos.flatMap((photo) => {
    const settings = settingsOf(photo.photoId);
    if (!settings || !isCounted(photo, observer, classIds)) return [];
    const estimate = estimatePhotoCover(photo, observer, classIds);
    if (estimate.points === 0) return [];
    const cover = estimate.classes.map(({ hits, coverFraction, interval }, index) => ({
      classId: classIds[index]!,
      pixels: hits,
      coverFraction: coverFraction!,
      ...(interval && { lowFraction: interval.low, highFraction: interval.high }),
    }));
    const modelId = `points called by ${observer}`;
    const figure = {
      ...origin(settings),
      method: 'points',
      modelId,
      measuredPixels: estimate.points,
      cover,
    } as const;
    return [{ photoId: photo.photoId, figure }];
  });
}

/** The figures of masks adjusted for their errors; photos whose adjustment did not come about have none. */
export function adjustedFigures(
  adjustments: PhotoAdjustments['photos'],
  figureOf: (photoId: string) => Figure | null,
  classIds: readonly string[],
  settingsOf: SettingsOf,
): FigureOfPhoto[] {
  return adjustments.flatMap(({ photo, adjustment }) => {
    const settings = settingsOf(photo);
    const figure = figureOf(photo);
    if (!settings || !figure || !adjustment.ok) return [];
    const { modelId, measuredPixels, millimetresPerPixel } = figure;
    const cover = adjustedCover(adjustment, figure.cover, classIds);
    const made = { ...origin(settings), modelId, measuredPixels, millimetresPerPixel, cover };
    return [{ photoId: photo, figure: { ...made, method: 'adjusted' } as const }];
  });
}

const origin = (settings: MeasureSettings) =>
  ({
    flags: [],
    millimetresPerPixel: null,
    softwareVersion: SOFTWARE_VERSION,
    decoder: 'browser, for looking',
    settings,
  }) satisfies Partial<NewFigure>;

function adjustedCover(
  { classes }: Adjustment & { readonly ok: true },
  mapped: NewFigure['cover'],
  classIds: readonly string[],
): NewFigure['cover'] {
  return classes.map(({ coverFraction, interval }, index) => {
    const classId = classIds[index]!;
    return {
      classId,
      pixels: mapped.find((share) => share.classId === classId)?.pixels ?? 0,
      coverFraction: Math.min(1, Math.max(0, coverFraction)),
      lowFraction: interval.low,
      highFraction: interval.high,
    };
  });
}
