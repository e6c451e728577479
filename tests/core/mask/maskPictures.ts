import { type CorrectedMask, correctedMask } from '../../../src/core/mask/correctedMask.ts';
import {
  type CorrectionLayer,
  correctionAt,
  emptyCorrections,
} from '../../../src/core/mask/correctionLayer.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

/** A mask without corrections from a picture: "RRB/RW.". */
export function maskFrom(picture: string): CorrectedMask {
  const automatic = labelMaskFrom(picture);
  return correctedMask(automatic, emptyCorrections(automatic.widthPx, automatic.heightPx), 3);
}

/** Labels as a picture, the reverse of labelMaskFrom. */
export function pictureOf({ widthPx, heightPx, labels }: LabelMask): string {
  return picture(widthPx, heightPx, (x, y) => labels[y * widthPx + x]!);
}

/** Corrections as a picture; "." where the automatic label holds. */
export function correctionsOf(layer: CorrectionLayer): string {
  return picture(layer.widthPx, layer.heightPx, (x, y) => correctionAt(layer, x, y));
}

function picture(widthPx: number, heightPx: number, labelAt: (x: number, y: number) => number): string {
  return Array.from({ length: heightPx }, (_, y) =>
    Array.from({ length: widthPx }, (_, x) => '.RWB'[labelAt(x, y)]).join(''),
  ).join('/');
}
