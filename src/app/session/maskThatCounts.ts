import { correctedMask } from '../../core/mask/correctedMask.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import { readCorrections } from './readCorrections.ts';
import type { PartContext } from './sessionPart.ts';

/** The mask that counts for a photo. */
export interface MaskThatCounts {
  readonly mask: LabelMask;
  /** Whether hand corrections are part of it. */
  readonly corrected: boolean;
}

/**
 * The automatic mask of a photo under its hand corrections; corrections that cannot be read are left away (they are told where
 * the photo is corrected). Null where there is no mask now.
 */
export async function maskThatCounts(
  context: Pick<PartContext, 'store' | 'photos' | 'mask'>,
  photoId: string,
): Promise<MaskThatCounts | null> {
  const mask = await context.mask(photoId);
  if (!mask) return null;
  const automatic = { mask, corrected: false };
  const figure = context.photos.get().find(({ id }) => id === photoId)?.figure;
  const record = await context.store.corrections.layer(photoId);
  if (!figure || !record) return automatic;
  const classIds = figure.settings.classes.map(({ id }) => id);
  const read = readCorrections(record, mask, classIds);
  if (!read.ok || read.layer.tiles.size === 0) return automatic;
  return { mask: correctedMask(mask, read.layer, classIds.length).effective, corrected: true };
}
