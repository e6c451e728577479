import type { MeasureSettings } from '../cover/measurePhoto.ts';
import type { PhotoAnnotations } from './photoAnnotations.ts';

/** How a photo is to be measured by the annotations: the whole of it where they say nothing. */
export function measureSettingsOf({ classes, photos }: PhotoAnnotations, photo: string): MeasureSettings {
  const { frame = null, ignored = [], neutral = null } = photos.get(photo) ?? {};
  return { classes, frame, ignored, neutral };
}
